import { createApp } from 'vue';
import Figure from './Figure.vue';

createApp(Figure).mount('#app');

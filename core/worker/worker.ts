/** The worker's entry: self-contained, so that it runs as a module, a classic and a blob worker alike. */
import { serve } from './serve.js';

serve();

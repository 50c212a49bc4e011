import type { CustomElements } from 'tonewell/jsx';

declare module 'react' {
  namespace JSX {
    interface IntrinsicElements extends CustomElements {}
  }
}

/// <reference types="vite/client" />
import 'react';

declare module 'react' {
  interface CSSProperties {
    /** How many characters a number has that is to fit its room (stations.css). */
    '--characters'?: number;
  }
}

/// <reference types="vite/client" />

/** `packSolved` of the chart that the app begins with (scripts/solved-plugin.ts). */
declare module 'virtual:solved-numbers' {
  export const SOLVED_NUMBERS: import('./charts/index.ts').PackedSolved;
}

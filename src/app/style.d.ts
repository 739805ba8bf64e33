/** Styles that a screen brings with it, by being imported. */
declare module '*.css';

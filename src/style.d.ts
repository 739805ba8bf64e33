/** A stylesheet, imported by the module whose markup it styles: it comes with that module's chunk. */
declare module '*.css';

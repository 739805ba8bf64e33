/** Draws a pennant on its pole. The words beside it give its meaning. */
export function FlagMark() {
  return (
    <svg class="flag-mark" viewBox="0 0 10 12" width="10" height="12" aria-hidden="true">
      <path d="M1.5 12V1" />
      <path class="pennant" d="M1.5 1L9 4L1.5 7Z" />
    </svg>
  );
}

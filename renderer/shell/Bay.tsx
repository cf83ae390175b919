/** The program's sign: an apparatus bay, its door half up, its slats the lines of a book. */
export function Bay() {
  return (
    <svg width="22" height="22" viewBox="0 0 22 22" aria-hidden="true" focusable="false">
      <path d="M2 21V2h18v19" fill="none" stroke="currentColor" strokeWidth="2" />
      <path d="M4.5 6h13M4.5 9.5h13M4.5 13h13" stroke="currentColor" strokeWidth="1.6" />
    </svg>
  );
}

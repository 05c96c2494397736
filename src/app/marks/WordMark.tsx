/** The name, with two noses that kiss between its words: the heading over everything. */
export function WordMark() {
  return (
    <h1 className="word-mark" aria-label="Elbowroom">
      <span aria-hidden="true">Elbow</span>
      <svg width="22" height="18" viewBox="0 0 24 20" aria-hidden="true">
        <path d="M2 2.5h2a7.5 7.5 0 0 1 0 15H2zM22 2.5h-2a7.5 7.5 0 0 0 0 15h2z" fill="currentColor" />
      </svg>
      <span aria-hidden="true">room</span>
    </h1>
  );
}

/** Prints the page as it stands. */
export function PrintButton() {
  return (
    <button
      type="button"
      className="deed"
      onClick={() => {
        window.print();
      }}
    >
      Print
    </button>
  );
}

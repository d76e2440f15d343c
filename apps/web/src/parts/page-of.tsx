import { useEffect, useState, type ComponentType } from 'react';

/**
 * A page whose script is fetched when somebody first goes there. Where it does not come (the line is down, or the
 * server has a newer page than the one open here) that is said, and the whole page can be fetched anew.
 */
export function pageOf<Props extends object>(
  fetch: () => Promise<ComponentType<Props>>,
): ComponentType<Props> {
  let known: ComponentType<Props> | null = null;
  return function Fetched(props: Props) {
    const [There, setThere] = useState(() => known);
    const [failed, setFailed] = useState<string | null>(null);
    useEffect(() => {
      if (There) return;
      let here = true;
      fetch().then(
        (page) => {
          known = page;
          if (here) setThere(() => page);
        },
        (error: unknown) => {
          if (here) setFailed(String(error));
        },
      );
      return () => {
        here = false;
      };
    }, [There]);
    if (There) return <There {...props} />;
    return (
      <main id="main" className="page">
        {failed ? (
          <div className="answer answer-no" role="alert">
            <h1>This page did not come</h1>
            <p>Your line may be down, or the yard’s server has a newer page. Nothing was changed.</p>
            <p className="pencil">{failed}</p>
            <button
              type="button"
              className="quiet"
              onClick={() => {
                window.location.reload();
              }}
            >
              Fetch it again
            </button>
          </div>
        ) : (
          <p className="waiting" role="status">
            Looking up the page…
          </p>
        )}
      </main>
    );
  };
}

import { useEffect, useRef, type ReactNode } from 'react';

/** A page: its heading takes the focus on arrival, so that keyboard and screen reader start at its top. */
export function Page({
  title,
  heading,
  lead,
  children,
}: {
  title: string;
  heading?: ReactNode;
  lead?: ReactNode;
  children: ReactNode;
}) {
  const top = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · Ribband`;
    top.current?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }, [title]);
  return (
    <main id="main" className="page">
      <h1 ref={top} tabIndex={-1}>
        {heading ?? title}
      </h1>
      {lead ? <div className="lead">{lead}</div> : null}
      {children}
    </main>
  );
}

/** A part of a page under its own heading. */
export function Section({
  title,
  id,
  aside,
  children,
}: {
  title: string;
  id: string;
  aside?: ReactNode;
  children: ReactNode;
}) {
  return (
    <section aria-labelledby={id} className="section">
      <div className="section-top">
        <h2 id={id}>{title}</h2>
        {aside}
      </div>
      {children}
    </section>
  );
}

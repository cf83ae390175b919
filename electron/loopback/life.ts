/** When the loopback host ends by itself. */

export interface LifeOptions {
  pagesOpen(): number;
  onPagesOpen(listener: () => void): void;
  /** Settles when the browser that showed the window has ended; never where it could not be started. */
  windowClosed: Promise<void>;
  /** How long no page may be open before the host ends: a reload or a second window comes back sooner. */
  grace_ms?: number;
  /**
   * The same before any page was open: a browser that is already running takes the window over, and the process we
   * started ends before the page has loaded.
   */
  firstGrace_ms?: number;
}

/** Settles once the window is closed and no page has been open for the grace. */
export function unused(options: LifeOptions): Promise<void> {
  const { pagesOpen, onPagesOpen, windowClosed, grace_ms = 3_000, firstGrace_ms = 20_000 } = options;
  return new Promise(resolve => {
    let closed = false;
    let anyPage = pagesOpen() > 0;
    let timer: NodeJS.Timeout | undefined;
    const look = () => {
      clearTimeout(timer);
      anyPage ||= pagesOpen() > 0;
      if (closed && pagesOpen() === 0) timer = setTimeout(resolve, anyPage ? grace_ms : firstGrace_ms);
    };
    onPagesOpen(look);
    windowClosed.then(() => {
      closed = true;
      look();
    });
  });
}

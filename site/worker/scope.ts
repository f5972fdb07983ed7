// The part of a service worker's surroundings that ours uses (W3C, Service Workers). The types of a page have none of it.

interface ExtendableEvent extends Event {
  waitUntil(work: Promise<unknown>): void;
}

export interface FetchEvent extends ExtendableEvent {
  readonly request: Request;
  /** The page that asks; empty for the page itself. */
  readonly clientId: string;
  respondWith(answer: Promise<Response>): void;
}

export interface WorkerScope {
  readonly registration: { readonly scope: string };
  readonly clients: {
    claim(): Promise<void>;
    get(id: string): Promise<{ readonly url: string } | undefined>;
  };
  skipWaiting(): Promise<void>;
  addEventListener(kind: 'install' | 'activate', listen: (event: ExtendableEvent) => void): void;
  addEventListener(kind: 'fetch', listen: (event: FetchEvent) => void): void;
}

import { Client, type Outcome, type Port } from './client.ts';

export type Answered<Answer> =
  | { readonly ok: true; readonly answer: Answer }
  /** `say` is the message for the player. */
  | { readonly ok: false; readonly say: string };

export interface LatestOnly<Request, Answer> {
  /** Calls `done` once, unless a later request replaces this one before it begins. */
  readonly ask: (request: Request, done: (answered: Answered<Answer>) => void) => void;
}

interface Job<Request, Answer> {
  readonly request: Request;
  readonly done: (answered: Answered<Answer>) => void;
}

/**
 * Sends a worker one request at a time. While the worker is busy, only the latest new request is kept.
 * So the answers do not lag behind input that changes quickly.
 */
export function latestOnly<Request, Answer>(start: () => Port): LatestOnly<Request, Answer> {
  const client = new Client<Request, Answer>(start);
  let isBusy = false;
  let latest: Job<Request, Answer> | null = null;
  const begin = ({ request, done }: Job<Request, Answer>): void => {
    isBusy = true;
    const onOutcome = (outcome: Outcome<Answer>): void => {
      const next = latest;
      isBusy = false;
      latest = null;
      if (next) begin(next);
      done(answeredBy(outcome));
    };
    client.send(request, { onOutcome });
  };
  return {
    ask: (request, done) => {
      if (isBusy) latest = { request, done };
      else begin({ request, done });
    },
  };
}

function answeredBy<Answer>(outcome: Outcome<Answer>): Answered<Answer> {
  switch (outcome.at) {
    case 'answered':
      return { ok: true, answer: outcome.answer };
    case 'failed':
      return { ok: false, say: `The numbers could not be worked out: ${outcome.why}` };
    case 'stopped':
      return { ok: false, say: `The solver stopped: ${outcome.why}. Reload the page.` };
  }
}

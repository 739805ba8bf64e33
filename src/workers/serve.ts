/** The worker's side of the connection; the page's side is client.ts. */

import type { Reply, Sent } from './client.ts';

declare const self: DedicatedWorkerGlobalScope;

/** Replies to each request with the handler's result, or with the message of the error it throws. */
export function serve<Request, Answer, Progress = never>(
  handler: (request: Request, report: (progress: Progress) => void) => Answer | Promise<Answer>,
): void {
  const post = (reply: Reply<Answer, Progress>): void => self.postMessage(reply);
  const replyTo = async ({ id, request }: Sent<Request>): Promise<void> => {
    try {
      post({ id, answer: await handler(request, (progress) => post({ id, progress })) });
    } catch (error) {
      post({ id, failed: error instanceof Error ? error.message : String(error) });
    }
  };
  self.addEventListener('message', ({ data }: MessageEvent<Sent<Request>>) => void replyTo(data));
}

import type { EventDraft } from '../../src/scheduler/index.ts';

export function answerDraft(card: string): EventDraft {
  return {
    type: 'answered',
    card,
    kind: 'number',
    answer: [2.3],
    errors: [0.1],
    outcome: 'rattled',
    ms: 2100,
    day: 20_000,
    at: 1_728_000_000_000,
  };
}

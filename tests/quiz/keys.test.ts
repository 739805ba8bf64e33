import { signal } from '@preact/signals';
import { describe, expect, it, vi } from 'vitest';
import { press } from '../../src/quiz/keys.ts';
import type { Phase } from '../../src/quiz/phase.ts';
import type { Session } from '../../src/quiz/session.ts';

describe('the keyboard', () => {
  it.each([
    ['7', 'type'],
    [',', 'type'],
    ['.', 'type'],
    ['-', 'flipSign'],
    ['Backspace', 'erase'],
    ['?', 'showMe'],
    ['Enter', 'submit'],
    ['ArrowDown', 'goTo'],
  ] as const)('%s is %s while a question is asked', (key, action) => {
    const session = fake({ at: 'asking', texts: ['', ''], field: 0 });
    expect(press(session, key)).toBe(true);
    expect(session[action]).toHaveBeenCalledOnce();
  });

  it('Enter goes on from an answer and from a new line', () => {
    const answered = fake({ at: 'answered' });
    press(answered, 'Enter');
    expect(answered.next).toHaveBeenCalledOnce();
    const meeting = fake({ at: 'meeting' });
    press(meeting, 'Enter');
    expect(meeting.metIt).toHaveBeenCalledOnce();
  });

  it('leaves other keys to the browser', () => {
    const session = fake({ at: 'asking', texts: [''], field: 0 });
    for (const key of ['a', 'Tab', 'F5', 'Escape']) expect(press(session, key)).toBe(false);
  });
});

function fake(phase: object): Session {
  return {
    naming: 'through',
    phase: signal(phase as Phase),
    progress: signal({ answered: 0, left: 0 }),
    summary: signal({ answers: 0, counts: [], missed: [], next: null }),
    canTakeBack: signal(false),
    next: vi.fn(),
    type: vi.fn(),
    erase: vi.fn(),
    flipSign: vi.fn(),
    goTo: vi.fn(),
    submit: vi.fn(),
    showMe: vi.fn(),
    metIt: vi.fn(),
    takeBack: vi.fn(),
    painted: vi.fn(),
  };
}

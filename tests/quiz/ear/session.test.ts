import { describe, expect, it } from 'vitest';
import type { LineCard } from '../../../src/cards/index.ts';
import { pressByEar } from '../../../src/quiz/ear/keys.ts';
import type { EarSession } from '../../../src/quiz/ear/session.ts';
import { createEarSession, createSession, createStopwatch } from '../../../src/quiz/index.ts';
import { foldLog, parseEvent } from '../../../src/scheduler/index.ts';
import { answer, base, judged, said } from '../../scheduler/making.ts';
import { cards, createDevice, settle, type TestDevice, TODAY } from './device.ts';

const numbers = cards.filter((card): card is LineCard => card.kind === 'number');
const lines = numbers.slice(0, 3);
const met = lines.map((card, n) => said(base(n, TODAY), 'met', { line: card.lineId }));

async function enter(device: TestDevice): Promise<{ session: EarSession; leave: () => void }> {
  const session = createEarSession(device.ports);
  const leave = session.enter();
  await settle();
  return { session, leave };
}

const at = (session: EarSession) => session.phase.value.at;

/** A session that has begun and spoken its caution. */
async function begun(device: TestDevice) {
  const entered = await enter(device);
  entered.session.begin(true);
  await device.endSpeech('spoken');
  return entered;
}

/** A session that waits for the judgement of its first question. */
async function judging(device: TestDevice) {
  const entered = await begun(device);
  await device.endSpeech('spoken');
  await device.pass(4000);
  await device.endSpeech('spoken');
  await device.pass(1000);
  expect(at(entered.session)).toBe('judging');
  return entered;
}

describe('a question by ear', () => {
  it('follows the caution: spoken question, pause, number, judgement', async () => {
    const device = createDevice(met, { settings: { voiceRate: 1.2 } });
    const { session } = await enter(device);
    expect(at(session)).toBe('ready');
    expect(device.said).toEqual([]);
    session.begin(true);
    expect(at(session)).toBe('caution');
    await device.endSpeech('spoken');
    expect(at(session)).toBe('asking');
    await device.endSpeech('spoken');
    expect(session.phase.value).toMatchObject({ at: 'thinking', seconds: 4 });
    await device.pass(3999);
    expect(at(session)).toBe('thinking');
    await device.pass(1);
    expect(at(session)).toBe('telling');
    await device.endSpeech('spoken');
    expect(at(session)).toBe('judging');
    expect(device.said[0]).toBe('Do not practice while driving.');
    expect(device.said[1]).toMatch(/\. From .*\. Medium\.$/);
    expect(device.said).toHaveLength(3);
    expect(device.rates).toEqual([1.2, 1.2, 1.2]);
    await device.pass(2000);
    await session.judge(true);
    expect(at(session)).toBe('asking');
    expect(session.score.value).toEqual({ hadIt: 1, not: 0 });
  });

  it.each([
    ['had it', true, 'pocketed'],
    ['not', false, 'off'],
  ] as const)(
    'writes "%s" as the player’s own judgement, timed from the end of the question',
    async (_, hadIt, outcome) => {
      const device = createDevice(met);
      const { session } = await judging(device);
      const asked = session.phase.value;
      await session.judge(hadIt);
      const event = device.disk.at(-1);
      expect(event).toMatchObject({
        type: 'answered',
        kind: 'number',
        judged: 'self',
        answer: null,
        errors: null,
        outcome,
        // 4 s of pause and 1 s to the judgement.
        ms: 5000,
        day: TODAY,
      });
      expect(event).toHaveProperty('card', 'asked' in asked && asked.asked?.card.id);
      // It is a valid stored event, and says nothing about the pace.
      expect(parseEvent(event).ok).toBe(true);
      expect(device.log.value.times.size).toBe(0);
    },
  );

  it('comes for every line met, again for a missed one, and then the session is done', async () => {
    const device = createDevice(met, { settings: { kinds: ['number'] } });
    const { session } = await judging(device);
    const order: string[] = [];
    for (let n = 0; n < 20 && at(session) !== 'done'; n++) {
      const { asked } = session.phase.value as { asked: { card: { id: string } } };
      order.push(asked.card.id);
      session.skip();
      session.skip();
      await device.pass(1000);
      await session.judge(n !== 0);
    }
    expect(session.phase.value).toEqual({ at: 'done', why: 'all asked' });
    expect(order).toHaveLength(4);
    expect(order[1]).not.toBe(order[0]);
    expect(new Set(order).size).toBe(3);
    expect(order.filter((id) => id === order[0])).toHaveLength(2);
    expect(device.said.at(-1)).toBe('Nothing is left to ask today.');
    expect(device.held).toEqual({ keys: null, locks: 0 });
  });

  it('does not come while the player has met no line', async () => {
    const { session } = await enter(createDevice([]));
    expect(session.phase.value).toEqual({ at: 'done', why: 'none met' });
  });

  it('can be skipped through: caution, question, pause, number', async () => {
    const device = createDevice(met);
    const { session } = await enter(device);
    session.begin(true);
    const seen = [];
    for (let n = 0; n < 4; n++) {
      seen.push(at(session));
      session.skip();
    }
    expect([...seen, at(session)]).toEqual(['caution', 'asking', 'thinking', 'telling', 'telling']);
    await settle();
    expect(at(session)).toBe('telling');
  });

  it('takes a judgement while the number is still spoken, but not from a double press', async () => {
    const device = createDevice(met);
    const { session } = await begun(device);
    session.skip();
    session.skip();
    await device.pass(100);
    await session.judge(true);
    expect(device.disk).toHaveLength(met.length);
    await device.pass(400);
    await Promise.all([session.judge(true), session.judge(true), session.judge(false)]);
    expect(device.disk).toHaveLength(met.length + 1);
  });

  it('is repeated once with its number after 20 s without a judgement, and then waits', async () => {
    const device = createDevice(met);
    const { session } = await judging(device);
    const [, question, number] = device.said;
    await device.pass(18_999);
    expect(device.said).toHaveLength(3);
    await device.pass(1);
    expect(device.said.slice(3)).toEqual([`${question} ${number}`]);
    await device.endSpeech('spoken');
    await device.pass(600_000);
    expect(device.said).toHaveLength(4);
    expect(at(session)).toBe('judging');
  });

  it('stays open if the judgement cannot be written, says why, and writes the next press', async () => {
    const device = createDevice(met);
    const { session } = await judging(device);
    device.refuse = new DOMException('no room', 'QuotaExceededError');
    await session.judge(false);
    expect(at(session)).toBe('judging');
    expect(session.problem.value).toContain('no room left');
    expect(device.said.at(-1)).toBe(session.problem.value);
    device.refuse = null;
    await session.judge(false);
    expect(device.disk.at(-1)).toMatchObject({ outcome: 'off' });
    expect(session.problem.value).toBe(null);
  });

  it('does not count twice if another tab answered it meanwhile', async () => {
    const device = createDevice(met);
    const { session } = await judging(device);
    const { asked } = session.phase.value as { asked: { card: { id: string } } };
    device.log.value = foldLog([...device.disk, answer(9, asked.card.id, TODAY)]);
    await session.judge(true);
    expect(device.disk).toHaveLength(met.length);
    expect(session.problem.value).toContain('another tab');
    expect(session.phase.value).not.toMatchObject({ asked: { card: { id: asked.card.id } } });
  });
});

describe('pause and again', () => {
  it('pauses silently with the wake lock released, and repeats the question on resuming', async () => {
    const device = createDevice(met);
    const { session } = await begun(device);
    await device.endSpeech('spoken');
    session.pause();
    expect(session.phase.value).toMatchObject({ at: 'paused', cut: false });
    await settle();
    expect(device.held.locks).toBe(0);
    expect(device.isSpeaking()).toBe(false);
    await device.pass(60_000);
    expect(at(session)).toBe('paused');
    session.pause();
    await settle();
    expect(at(session)).toBe('asking');
    expect(device.said.at(-1)).toBe(device.said.at(-2));
    expect(device.held.locks).toBe(1);
  });

  it('asks again from the beginning, even after the number was spoken', async () => {
    const device = createDevice(met);
    const { session } = await judging(device);
    session.again();
    expect(at(session)).toBe('asking');
    expect(device.said.at(-1)).toBe(device.said[1]);
    // The repetition that was waiting is cancelled.
    await device.endSpeech('spoken');
    await device.pass(4000);
    await device.endSpeech('spoken');
    const before = device.said.length;
    await device.pass(16_500);
    expect(device.said).toHaveLength(before);
  });
});

describe('keys', () => {
  it.each([
    ['Enter', 'pocketed'],
    ['ArrowRight', 'pocketed'],
    ['Backspace', 'off'],
    ['ArrowLeft', 'off'],
  ])('judge: %s means %s', async (key, outcome) => {
    const device = createDevice(met);
    const { session } = await judging(device);
    expect(pressByEar(session, key)).toBe(true);
    await settle();
    expect(device.disk.at(-1)).toMatchObject({ outcome });
  });

  it('pause and resume with Space, repeat with R, and otherwise do nothing', async () => {
    const device = createDevice(met);
    const { session } = await judging(device);
    expect(pressByEar(session, 'x')).toBe(false);
    expect(at(session)).toBe('judging');
    pressByEar(session, ' ');
    expect(at(session)).toBe('paused');
    pressByEar(session, ' ');
    expect(at(session)).toBe('asking');
    await device.endSpeech('spoken');
    expect(at(session)).toBe('thinking');
    pressByEar(session, 'R');
    expect(at(session)).toBe('asking');
  });

  it('do nothing before the session has begun', async () => {
    const { session } = await enter(createDevice(met));
    expect(pressByEar(session, 'Enter')).toBe(false);
    expect(at(session)).toBe('ready');
  });

  it('of a headset work too: forward for had it, back for not, play to pause and resume', async () => {
    const device = createDevice(met);
    const { session } = await judging(device);
    device.held.keys?.not();
    await settle();
    expect(device.disk.at(-1)).toMatchObject({ outcome: 'off' });
    expect(at(session)).toBe('asking');
    device.held.keys?.hadIt();
    expect(at(session)).toBe('thinking');
    device.held.keys?.not();
    expect(at(session)).toBe('asking');
    device.held.keys?.pause();
    expect(at(session)).toBe('paused');
    device.held.keys?.hadIt();
    expect(at(session)).toBe('paused');
    device.held.keys?.pause();
    expect(at(session)).toBe('asking');
  });
});

describe('without a voice', () => {
  it('the player reads the questions; the pause and the keys stay the same', async () => {
    const device = createDevice(met, { voices: 0 });
    const { session } = await enter(device);
    expect(session.found.value).toBe('none');
    session.begin(true);
    await settle();
    expect(at(session)).toBe('thinking');
    await device.pass(4000);
    expect(at(session)).toBe('judging');
    await device.pass(60_000);
    await session.judge(true);
    expect(device.disk.at(-1)).toMatchObject({ judged: 'self', outcome: 'pocketed' });
    expect(device.said).toEqual([]);
  });

  it('a player may choose to read although there is a voice', async () => {
    const device = createDevice(met);
    const { session } = await enter(device);
    session.begin(false);
    await settle();
    expect(at(session)).toBe('thinking');
    expect(device.said).toEqual([]);
  });

  it('a session whose voice fails says so and continues to be read, losing nothing', async () => {
    const device = createDevice(met);
    const { session } = await begun(device);
    await device.endSpeech('failed');
    expect(session.aloud.value).toBe(false);
    expect(session.problem.value).toContain('voice has failed');
    expect(at(session)).toBe('thinking');
    await device.pass(4000);
    expect(at(session)).toBe('judging');
    await device.pass(1000);
    await session.judge(true);
    expect(device.disk).toHaveLength(met.length + 1);
  });

  it('a question to be read waits while the page is hidden', async () => {
    const device = createDevice(met, { voices: 0 });
    const { session } = await enter(device);
    session.begin(true);
    await settle();
    await device.setHidden(true);
    await device.pass(60_000);
    expect(at(session)).toBe('paused');
    await device.setHidden(false);
    expect(at(session)).toBe('thinking');
  });
});

describe('a hidden page or a phone call', () => {
  it('pauses a voice that is cut off, and repeats the question on return', async () => {
    const device = createDevice(met);
    const { session } = await begun(device);
    await device.setHidden(true);
    expect(at(session)).toBe('asking');
    await device.endSpeech('cut off');
    expect(session.phase.value).toMatchObject({ at: 'paused', cut: true });
    await device.setHidden(false);
    expect(at(session)).toBe('asking');
    expect(device.said.at(-1)).toBe(device.said.at(-2));
  });

  it('counts a voice that fails while hidden as cut off, not lost', async () => {
    const device = createDevice(met);
    const { session } = await begun(device);
    await device.setHidden(true);
    await device.endSpeech('failed');
    expect(at(session)).toBe('paused');
    await device.setHidden(false);
    expect(session.aloud.value).toBe(true);
    expect(device.isSpeaking()).toBe(true);
  });

  it('does not stop the session while the voice keeps speaking', async () => {
    const device = createDevice(met);
    const { session } = await begun(device);
    await device.setHidden(true);
    await device.endSpeech('spoken');
    await device.pass(4000);
    await device.endSpeech('spoken');
    await device.pass(500);
    device.held.keys?.hadIt();
    await settle();
    expect(device.disk).toHaveLength(met.length + 1);
    expect(at(session)).toBe('asking');
  });

  it('leaves a session paused that the player paused', async () => {
    const device = createDevice(met);
    const { session } = await begun(device);
    session.pause();
    await device.setHidden(true);
    await device.setHidden(false);
    expect(at(session)).toBe('paused');
  });

  it('repeats a caution that was cut off', async () => {
    const device = createDevice(met);
    const { session } = await enter(device);
    session.begin(true);
    await device.endSpeech('cut off');
    expect(at(session)).toBe('paused');
    session.pause();
    expect(at(session)).toBe('caution');
  });
});

describe('leaving', () => {
  it('leaves nothing for a key of the headset to do that arrives late', async () => {
    const device = createDevice(met);
    const { leave } = await begun(device);
    const late = device.held.keys;
    late?.pause();
    leave();
    const spoken = device.said.length;
    late?.pause();
    late?.hadIt();
    late?.not();
    await settle();
    expect(device.isSpeaking()).toBe(false);
    expect(device.said).toHaveLength(spoken);
    expect(device.held).toEqual({ keys: null, locks: 0 });
  });

  it.each(['asking', 'thinking', 'telling', 'judging'] as const)(
    'while %s silences the voice, releases keys and screen, and ends everything',
    async (where) => {
      const device = createDevice(met);
      const { session, leave } = await begun(device);
      if (where !== 'asking') await device.endSpeech('spoken');
      if (where === 'telling' || where === 'judging') await device.pass(4000);
      if (where === 'judging') await device.endSpeech('spoken');
      expect(at(session)).toBe(where);
      expect(device.held.keys).not.toBe(null);
      expect(device.held.locks).toBe(1);
      leave();
      await settle();
      expect(device.isSpeaking()).toBe(false);
      expect(device.held).toEqual({ keys: null, locks: 0 });
      const spoken = device.said.length;
      await device.pass(60_000);
      await device.setHidden(true);
      await device.setHidden(false);
      expect(device.said).toHaveLength(spoken);
      expect(device.held.locks).toBe(0);
    },
  );

  it('while a judgement is written keeps it and asks nothing more', async () => {
    const device = createDevice(met);
    const { session, leave } = await judging(device);
    const judgement = session.judge(true);
    leave();
    await judgement;
    expect(device.disk).toHaveLength(met.length + 1);
    expect(device.isSpeaking()).toBe(false);
    expect(device.said).toHaveLength(3);
  });
});

describe('the quiz after practice by ear', () => {
  it('counts a judgement by its outcome, not as shown', () => {
    const [card] = lines as [LineCard];
    const device = createDevice([judged(0, card.id, TODAY, true)]);
    const { ports } = device;
    const stopwatch = createStopwatch(() => 0);
    const session = createSession({ ...ports, stopwatch, minutes: null });
    expect(session.summary.value).toMatchObject({
      answers: 1,
      counts: [{ outcome: 'pocketed', count: 1 }],
    });
  });
});

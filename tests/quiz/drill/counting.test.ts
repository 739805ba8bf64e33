import { signal } from '@preact/signals';
import { describe, expect, it } from 'vitest';
import { type Card, cardsOf, isLineCard } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import {
  createDrill,
  createDrillSession,
  createStopwatch,
  type DrillSpec,
  printOf,
} from '../../../src/quiz/index.ts';
import { type Drilled, foldLog, type LogEvent } from '../../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, type Settings } from '../../../src/store/index.ts';
import { answer, base, said } from '../../scheduler/making.ts';

const chart = computeChart(HARBOUR_LANE);
const CARDS = cardsOf(chart, toDecimal(0.1));
/** Four skills and ten questions, so some skills come again. */
const SPEC: DrillSpec = {
  seed: 11,
  patterns: ['cross-side', 'cross-corner'],
  zones: ['middle'],
  kinds: ['in between', 'rail ball'],
  count: 10,
  speeds: 'medium',
  tolerance: toDecimal(0.1),
  given: true,
  print: printOf(chart),
};
const TODAY = 20_000;
const NUMBERS = CARDS.filter(({ kind }) => kind === 'number');
const SKILLS = CARDS.filter(
  (card) =>
    SPEC.patterns.includes(card.pattern) &&
    card.zone === 'middle' &&
    SPEC.kinds.includes(card.kind),
);
/** Every number was answered right the day before. */
const KNOWN = NUMBERS.map(({ id }, n) => answer(n, id, TODAY - 1));

describe('a drill of skills whose lines are known', () => {
  it('counts the first answer of each kind and zone of a pattern, and no other', async () => {
    const player = playerOf(KNOWN);
    const events = await player.play('r');
    expect(new Set(events.map(skillOf)).size).toBe(4);
    for (const [n, event] of events.entries()) {
      const isFirst = !events.slice(0, n).some((one) => skillOf(one) === skillOf(event));
      expect(event.counts).toBe(isFirst ? cardOf(event).id : undefined);
    }
  });

  it('asks each of their cards once, and leaves the pace alone', async () => {
    const player = playerOf(KNOWN);
    const { times } = player.log.value;
    await player.play('r');
    const { memories } = player.log.value;
    expect(SKILLS).toHaveLength(4);
    for (const { id } of SKILLS)
      expect(memories.get(id)).toMatchObject({ answers: 1, lastDay: TODAY });
    expect(memories.size).toBe(NUMBERS.length + 4);
    expect(player.log.value.times).toEqual(times);
  });

  it('counts a shown answer, as the quiz does', async () => {
    const player = playerOf(KNOWN);
    const session = player.begin('r');
    await session.showMe?.();
    const [event] = player.drilled();
    expect(event).toMatchObject({ answer: null, counts: event && cardOf(event).id });
  });

  it('counts a skill once a day, in whichever run, and again the day after', async () => {
    const player = playerOf(KNOWN);
    await player.play('first');
    expect(counted(await player.play('second'))).toEqual([]);
    player.today = TODAY + 1;
    expect(counted(await player.play('third'))).toHaveLength(4);
  });

  it('counts no skill that the quiz asked today', async () => {
    const [skill] = SKILLS as [Card, ...Card[]];
    const player = playerOf([
      ...KNOWN,
      { ...answer(KNOWN.length, skill.id, TODAY), kind: skill.kind },
    ]);
    const events = await player.play('r');
    expect(events.map(skillOf)).toContain(skillOf(skill));
    expect(new Set(counted(events))).toEqual(new Set(idsOf(SKILLS.slice(1))));
  });

  it('counts a skill that was asked before although one of its lines was off since', async () => {
    const [skill] = SKILLS as [Card, ...Card[]];
    const [line = ''] = skill.after;
    const n = KNOWN.length;
    const asked = { ...answer(n, skill.id, TODAY - 1), kind: skill.kind };
    const missed = { ...answer(n + 1, line, TODAY - 1), ...OFF };
    expect(counted(await playerOf([...KNOWN, missed]).play('r'))).not.toContain(skill.id);
    expect(counted(await playerOf([...KNOWN, asked, missed]).play('r'))).toContain(skill.id);
  });

  it('counts a kind that the quiz leaves out', async () => {
    const player = playerOf(KNOWN, { ...DEFAULT_SETTINGS, kinds: ['number'] });
    expect(counted(await player.play('r'))).toHaveLength(4);
  });

  it('counts nothing if the player does not allow it', async () => {
    const player = playerOf(KNOWN, { ...DEFAULT_SETTINGS, drillsCount: false });
    expect(counted(await player.play('r'))).toEqual([]);
    expect(player.log.value.memories.size).toBe(NUMBERS.length);
  });

  it('counts no second answer of a run, even if the first was not allowed to count', async () => {
    const player = playerOf(KNOWN, { ...DEFAULT_SETTINGS, drillsCount: false });
    const events = await player.play('r', 1);
    player.settings.value = DEFAULT_SETTINGS;
    const all = await player.play('r');
    const [first] = events.map(cardOf) as [Card];
    expect(all.slice(1).map(skillOf)).toContain(skillOf(first));
    expect(new Set(counted(all))).toEqual(new Set(idsOf(SKILLS.filter((one) => one !== first))));
  });

  it('counts no skill that is set aside', async () => {
    const [skill] = SKILLS as [Card, ...Card[]];
    const place = base(KNOWN.length, TODAY - 1);
    const aside = said(place, 'set aside', { line: skill.lineId, aside: true });
    const events = await playerOf([...KNOWN, aside]).play('r');
    expect(new Set(counted(events))).toEqual(new Set(idsOf(SKILLS.slice(1))));
  });

  it('counts no skill that the chart in use does not have', async () => {
    const player = playerOf(KNOWN);
    player.cards.value = CARDS.filter(isLineCard);
    expect(counted(await player.play('r'))).toEqual([]);
  });

  it('counts no line', async () => {
    const player = playerOf(KNOWN, DEFAULT_SETTINGS, { ...SPEC, kinds: ['number', 'window'] });
    const events = await player.play('r');
    expect(new Set(events.map(({ kind }) => kind))).toEqual(new Set(['number', 'window']));
    expect(counted(events)).toEqual([]);
  });
});

describe('a drill counts no skill', () => {
  const [skill] = SKILLS as [Card, ...Card[]];
  const needed = new Set(skill.after);
  const withAnswers = (change: (event: LogEvent) => readonly LogEvent[]) =>
    KNOWN.flatMap((event) => (needed.has(event.card) ? change(event) : [event]));

  it.each([
    ['whose lines were never asked', withAnswers(() => [])],
    [
      'whose lines were off the last time',
      withAnswers((event) => [{ ...event, ...OFF } as LogEvent]),
    ],
    ['whose lines were first asked today', withAnswers((event) => [{ ...event, day: TODAY }])],
  ])('%s', async (_name, events) => {
    const drilled = await playerOf(events).play('r');
    expect(drilled.map(skillOf)).toContain(skillOf(skill));
    expect(counted(drilled)).not.toContain(skill.id);
    // The other pattern's lines are known.
    const others = SKILLS.filter(({ pattern }) => pattern !== skill.pattern);
    expect(counted(drilled)).toEqual(expect.arrayContaining([...idsOf(others)]));
  });
});

const OFF = { outcome: 'off', errors: [0.5] } as const;

/** A player on a device of their own. */
function playerOf(events: readonly LogEvent[], chosen: Settings = DEFAULT_SETTINGS, spec = SPEC) {
  const all = [...events];
  const player = {
    today: TODAY,
    log: signal(foldLog(all)),
    cards: signal<readonly Card[]>(CARDS),
    settings: signal(chosen),
    drilled: () => all.filter((event) => event.type === 'drilled'),
    begin: (run: string) =>
      createDrillSession({
        chart,
        drill: createDrill(chart, spec),
        run,
        cards: player.cards,
        log: player.log,
        settings: player.settings,
        append: async (draft) => {
          const seq = all.length;
          const event = { ...draft, version: 1, id: `b:${seq}`, device: 'b', seq } as LogEvent;
          all.push(event);
          player.log.value = foldLog(all);
          return event;
        },
        now: () => player.today * 86_400_000 + all.length,
        today: () => player.today,
        stopwatch: createStopwatch(() => 0),
      }),
    /** Answers questions of a run, by default all that are left, and returns all its events. */
    play: async (run: string, most = 10): Promise<readonly Drilled[]> => {
      const session = player.begin(run);
      for (let n = 0; n < most && session.phase.value.at === 'asking'; n++) {
        while (session.phase.value.at === 'asking') {
          session.type('1');
          await session.submit();
        }
        session.next();
      }
      return player.drilled().filter((event) => event.run === run);
    },
  };
  return player;
}

type Skill = Pick<Drilled, 'pattern' | 'zone' | 'kind'>;

function skillOf({ pattern, zone, kind }: Skill): string {
  return `${pattern} ${zone} ${kind}`;
}

function cardOf(event: Skill): Card {
  const card = CARDS.find((one) => !isLineCard(one) && skillOf(one) === skillOf(event));
  if (!card) throw new Error(`no skill: ${skillOf(event)}`);
  return card;
}

function counted(events: readonly Drilled[]): readonly string[] {
  return events.flatMap(({ counts }) => counts ?? []);
}

function idsOf(cards: readonly Card[]): readonly string[] {
  return cards.map(({ id }) => id);
}

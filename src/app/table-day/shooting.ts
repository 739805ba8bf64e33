/** Keeps which line is shot next, and logs what the keys report. */

import { useMemo, useState } from 'preact/hooks';
import type { Chart } from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import type { Evening, LineSpeed, NextShot, TableShot } from '../../shots/index.ts';
import type { Fitter } from '../../workers/index.ts';
import type { Model } from '../state/model.ts';
import { asTableShot, type LoggedShot } from '../state/tonight.ts';
import { type LineChoice, suggested } from './choice.ts';
import { useEvening } from './evening.ts';

type ShotModel = Pick<Model, 'append' | 'today' | 'now'>;

/** What the player chose in place of the suggestion. */
interface Own {
  readonly choice: LineChoice;
  /**
   * Whether the line was picked under "Another line", and so stays. A changed number or speed is
   * for one shot only.
   */
  readonly picked: boolean;
}

export interface Shooting {
  readonly choice: LineChoice;
  /** The player's choice; null while the player follows the suggestion. */
  readonly own: Own | null;
  readonly choose: (own: Own | null) => void;
  /** Why this line is suggested; null if it is the player's own. */
  readonly why: NextShot | null;
  /**
   * Whether a newer suggestion is being computed. Until then, the old one must not be shot again.
   */
  readonly waits: boolean;
  /** The results of exactly the logged shots; null until they are computed. */
  readonly evening: Evening | null;
  /** Lines that are not suggested again, because the ball did not get there. */
  readonly without: readonly LineSpeed[];
  readonly problem: string | null;
  readonly log: (miss: number | null) => Promise<void>;
  readonly lose: () => void;
  /** Resolves to whether the shot was taken back. */
  readonly takeBack: (id: string) => Promise<boolean>;
}

export function useShooting(
  model: ShotModel,
  fitter: Fitter,
  chart: Chart,
  logged: readonly LoggedShot[],
): Shooting {
  // Compared by their ids, so that an event of another kind does not make everything compute again.
  const ids = logged.map(({ id }) => id).join(' ');
  const shots = useMemo(() => logged.map(asTableShot), [ids]);
  const [without, setWithout] = useState<readonly LineSpeed[]>([]);
  const { evening, busy, problem: fault } = useEvening(fitter, chart, shots, without);
  const [own, choose] = useState<Own | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const { append, takeBack } = useWrites(model, chart, setProblem);
  const next = evening?.next ?? null;
  const choice = own?.choice ?? suggested(chart, next, shots);
  const lose = (): void => {
    const { pattern, start, speed } = choice;
    setWithout([...without, { pattern, start, speed }]);
    choose(null);
  };
  return {
    ...{ choice, own, choose, without, lose, takeBack },
    why: own ? null : next,
    waits: own === null && busy && fault === null,
    evening: evening && isOf(evening, shots) ? evening : null,
    problem: problem ?? fault,
    log: async (miss) => {
      if ((await append(choice, miss)) && !own?.picked) choose(null);
    },
  };
}

/** Returns whether the results count exactly these shots. */
function isOf({ tonight }: Evening, shots: readonly TableShot[]): boolean {
  return tonight.shots.length + tonight.leftOut.length === shots.length;
}

/** Returns functions that write to the log. Each resolves to whether the write succeeded. */
function useWrites(model: ShotModel, chart: Chart, setProblem: (say: string | null) => void) {
  return useMemo(() => {
    const when = () => ({ day: model.today(), at: model.now() });
    const saved = (writing: Promise<unknown>): Promise<boolean> =>
      writing.then(
        () => {
          setProblem(null);
          return true;
        },
        (error: unknown) => {
          setProblem(notSaved(error));
          return false;
        },
      );
    return {
      append: ({ pattern, start, speed, aim }: LineChoice, miss: number | null) => {
        const shot = { chart: chart.document.id, pattern, start, speed, aim, miss };
        return saved(model.append({ type: 'table shot', ...shot, ...when() }));
      },
      takeBack: (id: string) =>
        saved(model.append({ type: 'taken back', answered: id, ...when() })),
    };
  }, [model, chart]);
}

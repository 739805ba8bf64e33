import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef } from 'preact/hooks';
import { isolated, type Levels, lastRevision } from '../../charts/index.ts';
import { Problem, useSaving } from '../parts/saving.tsx';
import type { Model } from '../state/model.ts';

export type TakenModel = Pick<Model, 'chart' | 'charts' | 'chooseChart' | 'use'>;

/** Shown after a chart was saved: says what was done, and what to do next. */
export function Taken(props: {
  readonly model: TakenModel;
  readonly id: string;
  readonly children: ComponentChildren;
}) {
  const { model, id } = props;
  const words = useId();
  const inUse = model.chart.value.document.id === id;
  const { problem, save } = useSaving();
  const next = useNext(inUse);
  const use = (): void => {
    save(model.chooseChart(id));
  };
  return (
    <section class="sheet receive-done">
      <div role="status" id={words}>
        <p>
          {props.children} {inUse && 'It is the chart in use.'}
        </p>
        <LevelsNote model={model} id={id} inUse={inUse} />
      </div>
      <div class="restore-actions">
        {inUse ? (
          <a class="key call" href="#/" ref={next.today} aria-describedby={words}>
            Today
          </a>
        ) : (
          <>
            <button
              type="button"
              class="key call"
              ref={next.use}
              aria-describedby={words}
              onClick={use}
            >
              Use it now
            </button>
            <a class="key quiet" href="#/">
              Today
            </a>
          </>
        )}
        <a class="key quiet" href="#/charts">
          Charts
        </a>
      </div>
      <Problem say={problem} />
    </section>
  );
}

/** Moves the focus to the next step, because the pressed button is gone. */
function useNext(inUse: boolean) {
  const today = useRef<HTMLAnchorElement>(null);
  const use = useRef<HTMLButtonElement>(null);
  useEffect(() => (today.current ?? use.current)?.focus(), [inUse]);
  return { today, use };
}

/** Says that the player can choose a level. Disappears once a level is chosen. */
function LevelsNote(props: {
  readonly model: Pick<Model, 'charts' | 'use'>;
  readonly id: string;
  readonly inUse: boolean;
}) {
  const { model, id, inUse } = props;
  const document = model.charts.value.find((one) => one.id === id);
  const levels = document && lastRevision(document).levels;
  if (!levels || (inUse && model.use.value.level !== null)) return null;
  return <p>{levelsWords(levels, inUse)}</p>;
}

function levelsWords({ names }: Levels, inUse: boolean): string {
  const where = inUse ? 'under Charts' : 'under Charts once you use it';
  return `The chart has levels: ${names.map(isolated).join('; ')}. You can choose yours ${where}; until then all of its lines are asked.`;
}

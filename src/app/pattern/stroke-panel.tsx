import type { Pattern } from '../../charts/index.ts';
import { divisions } from '../../table/index.ts';
import { Choice } from '../parts/controls.tsx';
import { Slider } from '../parts/slider.tsx';
import type { PanelProps } from './table-panel.tsx';

/** Changes how the ball is struck, and what the target is. */
export function StrokePanel({ bench, pattern }: PanelProps & { readonly pattern: Pattern }) {
  const { stroke, target } = bench.tried.value;
  const { follow = 0, running = 0, along = 0 } = stroke;
  const set = (part: Partial<typeof stroke>) => bench.change({ stroke: { ...stroke, ...part } });
  const { rail } = pattern.kicks;
  const most = divisions(rail);
  return (
    <section class="sheet panel" aria-label="Target and stroke">
      <h2>Target and stroke</h2>
      <Choice
        label="Target"
        value={target === 'pocket' ? 'pocket' : 'rail'}
        options={[
          ['pocket', 'the pocket'],
          ['rail', `a ball on the ${rail} rail`],
        ]}
        onChoose={(kind) => bench.change({ target: kind === 'pocket' ? 'pocket' : most / 4 })}
      />
      {target !== 'pocket' && (
        <Slider
          label={`Ball on the ${rail} rail, from the ${pattern.kicks.from}`}
          value={target}
          min={0.5}
          max={most - 0.5}
          step={0.1}
          words={target.toFixed(1)}
          onSlide={(diamond) => bench.change({ target: diamond })}
        />
      )}
      <Slider
        label="Ball lies along the line"
        value={along}
        min={0}
        max={0.9}
        step={0.05}
        words={along === 0 ? 'at the start rail' : `${Math.round(along * 100)} % of the way`}
        onSlide={(value) => set({ along: value })}
      />
      <Slider
        label="Height of the hit"
        value={follow}
        min={-0.5}
        max={0.5}
        step={0.05}
        words={offsetWords(follow, 'follow', 'draw')}
        onSlide={(value) => set({ follow: value })}
      />
      <Slider
        label="Side"
        value={running}
        min={-0.5}
        max={0.5}
        step={0.05}
        words={offsetWords(running, 'running', 'reverse')}
        onSlide={(value) => set({ running: value })}
      />
    </section>
  );
}

/**
 * Puts an offset into words.
 * @param offset of the cue tip from the center, in radii of the ball
 */
function offsetWords(offset: number, plus: string, minus: string): string {
  if (offset === 0) return 'centre';
  return `${Math.round(Math.abs(offset) * 100)} % ${offset > 0 ? plus : minus}`;
}

import { useEffect, useState } from 'preact/hooks';
import type { Effects } from '../../../cards/index.ts';
import type { ChartDocument } from '../../../charts/index.ts';
import type { Model } from '../../state/model.ts';

export type EffectsModel = Pick<Model, 'log' | 'charts' | 'effectsIf'>;

/**
 * Returns what adopting a document would do to memory. Null until this is known, and for a chart
 * that is not on the device. Never returns the effects of a different document.
 */
export function useEffects(model: EffectsModel, document: ChartDocument | null): Effects | null {
  const log = model.log.value;
  const charts = model.charts.value;
  const [known, setKnown] = useState<{
    readonly of: ChartDocument;
    readonly effects: Effects | null;
  } | null>(null);
  useEffect(() => {
    if (!document) return;
    let current = true;
    model.effectsIf(document).then(
      (effects) => {
        if (current) setKnown({ of: document, effects });
      },
      (error: unknown) => console.error('Effects on memory are not known:', error),
    );
    return () => {
      current = false;
    };
  }, [model, document, log, charts]);
  return known && known.of === document ? known.effects : null;
}

import { useState } from 'preact/hooks';
import { type Ordered, orderChange, setOrder } from '../../charts/index.ts';
import type { Solver } from '../../workers/index.ts';
import type { Editing } from '../state/editing/editing.ts';
import type { Model } from '../state/model.ts';
import { OrderPreview } from './order-preview.tsx';
import { askOrder } from './suggested-order.ts';

interface OrderProps {
  readonly model: Pick<Model, 'settings'>;
  readonly editing: Editing;
  readonly solver: Solver;
}

type State =
  | { readonly at: 'idle' }
  | { readonly at: 'working' }
  | { readonly at: 'failed'; readonly say: string }
  | { readonly at: 'suggested'; readonly order: readonly Ordered[] };

/**
 * Suggests which lines of the whole chart to learn first. One undo takes an accepted suggestion
 * back.
 */
export function EditorOrder({ model, editing, solver }: OrderProps) {
  const [state, set] = useState<State>({ at: 'idle' });
  const ask = (): void => {
    set({ at: 'working' });
    askOrder(model, editing, solver, (order) =>
      set(typeof order === 'string' ? { at: 'failed', say: order } : { at: 'suggested', order }),
    );
  };
  return (
    <details class="uses sheet">
      <summary>Suggested order</summary>
      <p class="soft-words">
        Lines that drop most easily at medium speed, in the patterns that come up most at your
        table, are learned first. How often a pattern comes up is set in Settings.
      </p>
      <button type="button" class="key" disabled={state.at === 'working'} onClick={ask}>
        {state.at === 'working' ? 'Working it out' : 'Suggest an order'}
      </button>
      <div role="status">
        {state.at === 'failed' && <p class="problem">{state.say}</p>}
        {state.at === 'suggested' && (
          <>
            <OrderPreview
              order={state.order}
              change={orderChange(editing.draft.value.now, state.order)}
            />
            <button
              type="button"
              class="key call"
              onClick={() => {
                editing.edit((now) => setOrder(now, state.order));
                set({ at: 'idle' });
              }}
            >
              Take this order
            </button>
          </>
        )}
      </div>
    </details>
  );
}

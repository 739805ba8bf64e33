import {
  type Conflict,
  cellIn,
  type Settling,
  type Side,
  settled,
  sideOf,
} from '../../charts/index.ts';
import { cellName, type Reading, valueWords } from '../parts/changes/change-words.ts';
import { OneOf } from '../parts/controls.tsx';

/** How many conflicts are shown at once; a tap shows the others. */
const SHOWN = 12;

interface ConflictsProps {
  readonly conflicts: readonly Conflict[];
  readonly reading: Reading;
  readonly settling: Settling;
  readonly settle: (settling: Settling) => void;
}

/**
 * Lists what both sides changed in different ways. The player settles all of it at once or one by
 * one.
 */
export function Conflicts(props: ConflictsProps) {
  const { conflicts, settling, settle } = props;
  const choices = [...new Set(conflicts.map(({ choice }) => choice))];
  const groups = choices.map(
    (choice) => [choice, conflicts.filter((one) => one.choice === choice)] as const,
  );
  const more = groups.slice(SHOWN);
  return (
    <section class="sheet conflicts" aria-labelledby="conflicts-title">
      <h2 id="conflicts-title">Where you disagree</h2>
      <p>You and its maker changed {placesWords(conflicts.length)} differently.</p>
      {groups.length > 1 && (
        <OneOf<Side>
          legend="All of them"
          name="keep"
          options={[
            ['mine', 'Keep my numbers'],
            ['theirs', 'Take theirs'],
          ]}
          chosen={settling.keep}
          onChoose={(keep) => settle({ keep, except: new Set() })}
        />
      )}
      <Groups {...props} groups={groups.slice(0, SHOWN)} />
      {more.length > 0 && (
        <details>
          <summary>And {more.length} more</summary>
          <Groups {...props} groups={more} />
        </details>
      )}
    </section>
  );
}

function placesWords(count: number): string {
  return count === 1 ? 'one thing' : `${count} things`;
}

function Groups(
  props: ConflictsProps & {
    readonly groups: readonly (readonly [string, readonly Conflict[]])[];
  },
) {
  const { groups, settling, settle, reading } = props;
  return groups.map(([choice, members]) => (
    <div key={choice} class="conflict">
      {members.length > 1 && (
        <ul>
          {members.map((one) => (
            <li key={cellName(cellIn(one))}>
              {cellName(cellIn(one))}: yours {words(one, 'mine', reading)}, theirs{' '}
              {words(one, 'theirs', reading)}
            </li>
          ))}
        </ul>
      )}
      <OneOf<Side>
        legend={members.length > 1 ? 'These go together' : nameOf(members)}
        name={`settle ${choice}`}
        options={(['mine', 'theirs'] as const).map((side) => [
          side,
          optionWords(members, side, reading),
        ])}
        chosen={sideOf(settling, choice)}
        onChoose={(side) => settle(settled(settling, choice, side))}
      />
    </div>
  ));
}

function nameOf([first]: readonly Conflict[]): string {
  return first ? cellName(cellIn(first)) : '';
}

function optionWords(members: readonly Conflict[], side: Side, reading: Reading): string {
  const whose = side === 'mine' ? 'mine' : 'theirs';
  const [only, ...others] = members;
  return only && others.length === 0 ? `${whose}: ${words(only, side, reading)}` : `all ${whose}`;
}

function words(conflict: Conflict, side: Side, reading: Reading): string {
  return valueWords(conflict[side], cellIn(conflict).of, reading);
}

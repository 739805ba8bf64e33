import { type Decimal, formatDecimal } from '../../charts/index.ts';
import { NEW_LINES, type Settings, type SettingsChange, TOLERANCES } from '../../store/index.ts';
import { Choice } from '../parts/controls.tsx';

interface QuestionsProps {
  readonly settings: Settings;
  readonly change: (part: SettingsChange) => void;
}

/** Changes how questions are asked and graded. */
export function QuestionsSheet(props: QuestionsProps & { readonly printStep: Decimal }) {
  const { settings, change, printStep } = props;
  return (
    <section class="sheet">
      <h2>Questions</h2>
      <Choice
        label="Tolerance"
        note={toleranceWords(settings.tolerance, printStep)}
        value={settings.tolerance}
        options={TOLERANCES.map((units) => [
          units,
          `${formatDecimal(units as number as Decimal)} diamond`,
        ])}
        onChoose={(tolerance) => change({ tolerance })}
      />
      <Choice
        label="New lines"
        note="With no limit, new lines come as fast as your minutes allow."
        value={settings.newLinesADay}
        options={[
          [null, 'no limit'],
          ...NEW_LINES.map((count) => [count, newLinesWords(count)] as const),
        ]}
        onChoose={(newLinesADay) => change({ newLinesADay })}
      />
      <Choice
        label="Learn by heart"
        note={
          settings.kinds.includes('in between')
            ? 'Between two anchors the proportional rule gives the number within the tolerance.'
            : 'In between is not asked, so every line is learned by heart.'
        }
        value={settings.byHeart}
        options={[
          ['anchors', 'anchors; the rest is worked out'],
          ['every line', 'every line, anchors first'],
        ]}
        onChoose={(byHeart) => change({ byHeart })}
      />
      <PictureChoices settings={settings} change={change} />
    </section>
  );
}

/** Changes what a question shows, and what its number names. */
function PictureChoices({ settings, change }: QuestionsProps) {
  return (
    <>
      <Choice
        label="Pictures"
        note="Every line can be met at four places of the table."
        value={settings.pictures}
        options={[
          ['all', 'all four mirrorings'],
          ['one', 'as printed only'],
        ]}
        onChoose={(pictures) => change({ pictures })}
      />
      <Choice
        label="A number names"
        note="A number for the other point is another number: each has a memory of its own."
        value={settings.naming}
        options={[
          ['through', 'the sight the line runs through'],
          ['opposite', 'the point of the nose it crosses'],
        ]}
        onChoose={(naming) => change({ naming })}
      />
      <Choice
        label="A new line is"
        value={settings.meetFirst ? 'shown' : 'asked'}
        options={[
          ['shown', 'shown before it is asked'],
          ['asked', 'asked at once'],
        ]}
        onChoose={(how) => change({ meetFirst: how === 'shown' })}
      />
    </>
  );
}

function newLinesWords(count: number): string {
  return count === 0 ? 'none' : `no more than ${count} a day`;
}

/** Says which tolerance is in force where the chart prints less finely than the one chosen. */
function toleranceWords(chosen: number, printStep: Decimal): string {
  const step = formatDecimal(printStep);
  if (chosen < printStep) return `This chart prints to ${step}, so ${step} is in force.`;
  return 'How far beside the number still counts.';
}

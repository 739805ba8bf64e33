import '../style/editor.css';
import { useState } from 'preact/hooks';
import { type ChartDocument, formatDecimal, patternOf, toDecimal } from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import { CONDITIONS, type ConditionName, TABLES, type TableSize } from '../../table/index.ts';
import { Choice, OneOf } from '../parts/controls.tsx';
import { ManyOf } from '../parts/many-of.tsx';
import { Problem } from '../parts/saving.tsx';
import { TABLE_NAMES } from '../parts/table-names.ts';
import type { AppPorts } from '../ports.ts';
import { formatScreen } from '../router.ts';
import type { Model } from '../state/model.ts';
import { ALL, type Change, documentOf, type Form, faultOf, firstForm } from './new-form.ts';
import { FirstTable } from './new-table.tsx';

const CONDITION_NAMES = Object.keys(CONDITIONS) as ConditionName[];
const START_STEPS = [0.25, 0.5, 1].map(toDecimal);
const PRINT_STEPS = [0.05, 0.1].map(toDecimal);
/**
 * The maximum length of a chart's or an author's name, in characters
 * (src/charts/document/schema.ts).
 */
const LONGEST_NAME = 80;

type ChoosingModel = Pick<Model, 'keepChart' | 'chooseChart' | 'settings' | 'changeSettings'>;
type BeginningModel = ChoosingModel & Pick<Model, 'chart' | 'charts' | 'now' | 'date'>;

interface NewChartProps extends Pick<AppPorts, 'go'> {
  readonly model: BeginningModel;
}

/** Sets up a new chart, saves it, and opens it in the editor. */
export function NewChartScreen({ model, go }: NewChartProps) {
  const [form, setForm] = useState<Form>(() => firstForm(model));
  // Changes the newest form, because the player may have typed into other fields while a file was
  // read.
  const change: Change = (part) => setForm((now) => ({ ...now, ...part }));
  const { problem, busy, begin } = useBegin(model, form, go);
  return (
    <main class="page editor-page">
      <a class="back" href={formatScreen({ name: 'charts' })}>
        Charts
      </a>
      <h1>New chart</h1>
      <p class="soft-words">
        A chart that somebody sent you is not begun but <a href="#/receive">received</a>.
      </p>
      <form class="sheet save-panel" onSubmit={begin}>
        <TextField label="Name of the chart" value={form.name} name="name" change={change} />
        <OneOf
          legend="Begin from"
          name="origin"
          options={[
            ['computed', 'computed numbers'],
            ['empty', 'an empty chart'],
            ['table', 'a table of numbers'],
            ['copy', 'a copy'],
          ]}
          chosen={form.origin}
          onChoose={(origin) => change({ origin })}
        />
        {form.origin === 'copy' ? (
          <CopiedChart charts={model.charts.value} form={form} change={change} />
        ) : (
          <>
            {form.origin === 'table' && (
              <FirstTable table={form.file} choose={(file) => change({ file })} />
            )}
            <TableOfChart form={form} change={change} />
          </>
        )}
        <TextField label="Your name" value={form.author} name="author" change={change} />
        <Problem say={problem} />
        <button type="submit" class="key call" disabled={busy}>
          Begin the chart
        </button>
      </form>
    </main>
  );
}

/** Saves the form's chart and opens the editor, or says why it cannot. */
function useBegin(model: BeginningModel, form: Form, go: AppPorts['go']) {
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const begin = async (event: Event): Promise<void> => {
    event.preventDefault();
    const names = model.charts.peek().map((one) => one.name);
    const fault = faultOf(form, names);
    setProblem(fault);
    if (fault !== null || busy) return;
    setBusy(true);
    const refusal = await saveAndChoose(model, documentOf(form, model));
    setBusy(false);
    if (refusal === null) go({ name: 'edit', pattern: null });
    else setProblem(refusal);
  };
  return { problem, busy, begin };
}

/**
 * Saves the chart and makes it the one in use. Returns a sentence that says why it could not; null
 * if it could.
 */
async function saveAndChoose(
  model: ChoosingModel,
  document: ChartDocument,
): Promise<string | null> {
  try {
    const saved = await model.keepChart(document);
    if (!saved.ok) return saved.say;
    await model.chooseChart(document.id);
    const { author } = document.revisions[0];
    if (model.settings.peek().author !== author) await model.changeSettings({ author });
    return null;
  } catch (error) {
    return notSaved(error);
  }
}

interface PartProps {
  readonly form: Form;
  readonly change: Change;
}

function TextField(props: {
  readonly label: string;
  readonly name: 'name' | 'author';
  readonly value: string;
  readonly change: Change;
}) {
  const { label, name, value, change } = props;
  return (
    <label class="field">
      <span>{label}</span>
      <input
        type="text"
        maxLength={LONGEST_NAME}
        value={value}
        onInput={(event) => change({ [name]: event.currentTarget.value })}
      />
    </label>
  );
}

function CopiedChart(props: PartProps & { readonly charts: readonly ChartDocument[] }) {
  const { charts, form, change } = props;
  return (
    <Choice
      label="Copy of"
      note="With its last revision’s numbers, priorities, remarks and levels."
      value={form.copied}
      options={charts.map(({ id, name }) => [id, name] as const)}
      onChoose={(copied) => change({ copied })}
    />
  );
}

function TableOfChart({ form, change }: PartProps) {
  return (
    <>
      <Choice
        label="Size"
        value={form.table}
        options={(Object.keys(TABLES) as TableSize[]).map((size) => [size, TABLE_NAMES[size]])}
        onChoose={(table) => change({ table })}
      />
      <Choice
        label="Condition"
        note="It can be set in detail in the editor."
        value={form.condition}
        options={CONDITION_NAMES.map((name) => [name, name])}
        onChoose={(condition) => change({ condition })}
      />
      {form.origin !== 'table' && (
        <ManyOf
          legend="Patterns"
          all={ALL}
          chosen={form.patterns}
          words={(id) => patternOf(id).name}
          onChoose={(patterns) => change({ patterns })}
        />
      )}
      <Choice
        label="A start every"
        value={form.startStep}
        options={START_STEPS.map((step) => [step, `${formatDecimal(step)} diamond`])}
        onChoose={(startStep) => change({ startStep })}
      />
      <Choice
        label="Numbers printed to"
        value={form.printStep}
        options={PRINT_STEPS.map((step) => [step, `${formatDecimal(step)} diamond`])}
        onChoose={(printStep) => change({ printStep })}
      />
    </>
  );
}

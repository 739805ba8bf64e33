import { useState } from 'preact/hooks';
import { type ChartDocument, formatDecimal, patternOf, toDecimal } from '../../charts/index.ts';
import { notSaved } from '../../quiz/index.ts';
import { CONDITIONS, type ConditionName, TABLES, type TableSize } from '../../table/index.ts';
import { Choice, ManyOf, OneOf } from '../parts/controls.tsx';
import { TABLE_NAMES } from '../parts/table-panel.tsx';
import type { AppPorts } from '../ports.ts';
import { formatScreen } from '../router.ts';
import type { Model } from '../state/model.ts';
import { ALL, type Change, documentOf, type Form, faultOf, firstForm } from './new-form.ts';
import { TableFile } from './new-table.tsx';
import '../style/editor.css';

const CONDITION_NAMES = Object.keys(CONDITIONS) as ConditionName[];
const START_STEPS = [0.25, 0.5, 1].map(toDecimal);
const PRINT_STEPS = [0.05, 0.1].map(toDecimal);

/** A chart is begun, kept, and opened in the editor. */
export function NewChartScreen({ model, go }: Pick<AppPorts, 'model' | 'go'>) {
  const [form, setForm] = useState<Form>(() => firstForm(model));
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  // A file is read meanwhile: what was typed since stays.
  const change: Change = (part) => setForm((now) => ({ ...now, ...part }));
  const begin = async (event: Event): Promise<void> => {
    event.preventDefault();
    const fault = faultOf(
      form,
      model.charts.peek().map((one) => one.name),
    );
    setProblem(fault);
    if (fault !== null || busy) return;
    setBusy(true);
    const said = await kept(model, documentOf(form, model));
    setBusy(false);
    if (said === null) go({ name: 'edit', pattern: null });
    else setProblem(said);
  };
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
        <TextField
          label="Name of the chart"
          value={form.name}
          most={80}
          name="name"
          {...{ change }}
        />
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
          <CopiedChart model={model} form={form} change={change} />
        ) : (
          <>
            {form.origin === 'table' && (
              <TableFile read={form.read} choose={(read) => change({ read })} />
            )}
            <TableOfChart form={form} change={change} />
          </>
        )}
        <TextField label="Your name" value={form.author} most={80} name="author" {...{ change }} />
        {problem && (
          <p class="problem" role="alert">
            {problem}
          </p>
        )}
        <button type="submit" class="key call" disabled={busy}>
          Begin the chart
        </button>
      </form>
    </main>
  );
}

/** Keeps the chart and takes it into use; says what went wrong, if anything. */
async function kept(model: Model, document: ChartDocument): Promise<string | null> {
  try {
    const done = await model.keepChart(document);
    if (!done.ok) return done.say;
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
  readonly most: number;
  readonly change: Change;
}) {
  const { label, name, value, most, change } = props;
  return (
    <label class="field">
      <span>{label}</span>
      <input
        type="text"
        maxLength={most}
        value={value}
        onInput={(event) => change({ [name]: event.currentTarget.value })}
      />
    </label>
  );
}

function CopiedChart({ model, form, change }: PartProps & { readonly model: Model }) {
  return (
    <Choice
      label="Copy of"
      note="With its last revision’s numbers, priorities, remarks and levels."
      value={form.copied}
      options={model.charts.value.map(({ id, name }) => [id, name] as const)}
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

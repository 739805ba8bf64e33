import './print.css';
import type { ComponentChildren } from 'preact';
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { anchorBound, type Chart, type PatternId, patternOf } from '../../charts/index.ts';
import { toleranceOf } from '../../store/index.ts';
import { SPEEDS, type Speed } from '../../table/index.ts';
import { fileNameOf } from '../device/file-name.ts';
import { OneOf } from '../parts/controls.tsx';
import { ManyOf } from '../parts/many-of.tsx';
import { SaveFigure } from '../parts/save-figure.tsx';
import type { AppPorts } from '../ports.ts';
import { PAPER_NAMES, PAPERS, type PaperName, paperOf } from './layout.ts';
import { type PrintJob, pagesOf } from './page.tsx';
import { pocketSheets } from './pocket.tsx';

type Form = 'page' | 'pocket';

interface Choices {
  readonly patterns: readonly PatternId[];
  readonly speeds: readonly Speed[];
  readonly form: Form;
  readonly paper: PaperName;
}

interface PrintProps extends Pick<AppPorts, 'model' | 'files' | 'print'> {
  /** The pattern to print; null means all patterns. */
  readonly pattern: PatternId | null;
}

/** Previews the sheets of a chart, and prints them. */
export function PrintScreen(props: PrintProps) {
  const { model, pattern, print } = props;
  const chart = model.chart.value;
  const settings = model.settings.value;
  const [choices, choose] = useState(() => firstChoices(chart, pattern));
  usePageSize(choices);
  const patterns = chart.patterns.filter((id) => choices.patterns.includes(id));
  const bound = anchorBound(toleranceOf(settings));
  const job: PrintJob = { ...choices, chart, patterns, bound, units: settings.units };
  return (
    <main class="page print-screen">
      <a class="back" href="#/charts">
        Charts
      </a>
      <h1>Print</h1>
      <ChoiceFields chart={chart} choices={choices} choose={choose} />
      <div class="print-start">
        <button type="button" class="key call" disabled={patterns.length === 0} onClick={print}>
          Print
        </button>
        <p class="soft-words" role="status">
          {countWords(patterns.length, choices.form)}
        </p>
      </div>
      <Preview job={job} form={choices.form} files={props.files} />
    </main>
  );
}

function firstChoices(chart: Chart, pattern: PatternId | null): Choices {
  return {
    patterns: pattern ? [pattern] : chart.patterns,
    speeds: SPEEDS,
    form: 'page',
    paper: paperOf(navigator.language),
  };
}

function countWords(patterns: number, form: Form): string {
  if (patterns === 0) return 'Choose a pattern to print.';
  const scale = 'Print at full size (100 %), or the scale is not true.';
  return form === 'pocket' ? `One side of the sheet. ${scale}` : scale;
}

/**
 * Sets the paper size, without page margins, because fold marks are printed near the edge. The
 * sheets have margins of their own. Adopts a style sheet, because the page's policy forbids style
 * elements.
 */
function usePageSize({ paper, form }: Choices): void {
  useLayoutEffect(() => {
    const turned = form === 'pocket' ? 'landscape' : 'portrait';
    const rules = new CSSStyleSheet();
    rules.replaceSync(`@page { size: ${paper} ${turned}; margin: 0; }`);
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, rules];
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== rules);
    };
  }, [paper, form]);
}

function ChoiceFields(props: {
  readonly chart: Chart;
  readonly choices: Choices;
  readonly choose: (choices: Choices) => void;
}) {
  const { chart, choices } = props;
  const set = (part: Partial<Choices>) => props.choose({ ...choices, ...part });
  return (
    <section class="sheet" aria-label="What to print">
      <ManyOf
        legend="Patterns"
        all={chart.patterns}
        chosen={choices.patterns}
        words={(id) => patternOf(id).name}
        onChoose={(patterns) => set({ patterns })}
      >
        <AllOrNone chart={chart} choices={choices} set={set} />
      </ManyOf>
      <OneOf
        legend="Form"
        name="form"
        options={[
          ['page', 'a page per pattern'],
          ['pocket', 'folded for the pocket'],
        ]}
        chosen={choices.form}
        onChoose={(form) => set({ form })}
      />
      <OneOf
        legend="Paper"
        name="paper"
        options={PAPER_NAMES.map((name) => [name, name] as const)}
        chosen={choices.paper}
        onChoose={(paper) => set({ paper })}
      />
      <ManyOf
        legend="Speeds"
        all={SPEEDS}
        chosen={choices.speeds}
        words={(speed) => speed}
        // Keeps at least one speed, because a sheet needs numbers.
        onChoose={(speeds) => set({ speeds: speeds.length > 0 ? speeds : choices.speeds })}
      />
    </section>
  );
}

function AllOrNone(props: {
  readonly chart: Chart;
  readonly choices: Choices;
  readonly set: (part: Partial<Choices>) => void;
}) {
  const { chart, choices, set } = props;
  const all = chart.patterns.every((id) => choices.patterns.includes(id));
  return (
    <button
      type="button"
      class="plain"
      onClick={() => set({ patterns: all ? [] : chart.patterns })}
    >
      {all ? 'None' : 'All'}
    </button>
  );
}

/** Shows the sheets at their printed size, scaled down if the screen is narrower. */
function Preview(props: {
  readonly job: PrintJob;
  readonly form: Form;
  readonly files: AppPorts['files'];
}) {
  const { job, form, files } = props;
  const { width, height } = PAPERS[job.paper];
  const size = form === 'pocket' ? { width: height, height: width } : { width, height };
  const room = useRef<HTMLDivElement>(null);
  const fit = useFit(room, size.width);
  const style = {
    '--paper-width': `${size.width}mm`,
    '--paper-height': `${size.height}mm`,
    '--fit': fit,
  };
  return (
    <div class="preview" ref={room} style={style}>
      {form === 'pocket'
        ? pocketSheets(job).map((sheet) => <Paper key={sheet.key}>{sheet}</Paper>)
        : job.patterns.map((id) => (
            <div key={id} data-figures>
              {pagesOf(job, id).map((page) => (
                <Paper key={page.key}>{page}</Paper>
              ))}
              <SaveFigure files={files} name={fileNameOf(job.chart.document.name, id)} />
            </div>
          ))}
    </div>
  );
}

function Paper({ children }: { readonly children: ComponentChildren }) {
  return (
    <div class="paper-holder">
      <div class="paper">{children}</div>
    </div>
  );
}

/**
 * Returns the scale of a sheet on the screen, at most 1.
 * @param width in millimeters
 */
function useFit(room: { readonly current: HTMLElement | null }, width: number): number {
  const [fit, setFit] = useState(1);
  useEffect(() => {
    const element = room.current;
    if (!element) return;
    // An inch is 96 px in CSS (CSS Values and Units 3, 5.2).
    const whole = (width * 96) / 25.4;
    const watch = new ResizeObserver(([entry]) => {
      if (entry) setFit(Math.min(1, entry.contentRect.width / whole));
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, [room, width]);
  return fit;
}

import './result.css';
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { KINDS } from '../../cards/index.ts';
import { ErrorPlot } from '../../figure/index.ts';
import type { Drilled } from '../../scheduler/index.ts';
import { KIND_NAMES } from '../words/card.ts';
import { type DrillPlot, errorsOfKind, plotsOf } from './plot.ts';
import {
  type Basis,
  errorsOf,
  figuresOf,
  type Lean,
  leanOf,
  mainBasis,
  type Past,
} from './result.ts';
import type { Run } from './run.ts';
import { biasWords, hundredths, leanWords, pastWords, shareWords, timeWords } from './words.ts';

/** Shows the result of a run: in words, in figures, and plotted along the rail. */
export function DrillResult(props: {
  readonly run: Run;
  readonly past: Past | null;
  /** Buttons for the plot. */
  readonly children?: ComponentChildren;
}) {
  const { run, past } = props;
  const { questions } = run;
  const figures = figuresOf(questions);
  const basis = mainBasis(questions);
  const lean = leanOf(errorsOf(questions, basis));
  const tolerances = questions.map(({ tolerance }) => tolerance);
  return (
    <>
      <section class="sheet drill-result" aria-labelledby="came-of-it">
        <h2 id="came-of-it">{shareWords(figures, tolerances)}</h2>
        <Leanings questions={questions} lean={lean} basis={basis} />
        {past && <p>{pastWords(past, figures.asked)}</p>}
        <dl class="drill-figures">
          {lean && (
            <Figure name="Bias" note="in diamonds, ± its standard error">
              {biasWords(lean)}
            </Figure>
          )}
          {lean?.spread != null && (
            <Figure name="Spread" note="in diamonds, standard deviation">
              {hundredths(lean.spread)}
            </Figure>
          )}
          {figures.medianMs !== null && (
            <Figure name="Time" note="median">
              {timeWords(figures.medianMs)}
            </Figure>
          )}
        </dl>
      </section>
      <Plots plots={plotsOf(questions)}>{props.children}</Plots>
      <ByKind questions={questions} />
    </>
  );
}

/** Shows the bias of the calls: that of the aim, and that of the arrivals if both were asked. */
function Leanings(props: {
  readonly questions: readonly Drilled[];
  readonly lean: Lean | null;
  readonly basis: Basis;
}) {
  const { questions, lean, basis } = props;
  const arrivals = basis === 'aim' ? leanOf(errorsOf(questions, 'arrival')) : null;
  return (
    <>
      {lean && <p>{leanWords(lean, basis)}</p>}
      {arrivals && <p>{leanWords(arrivals, 'arrival')}</p>}
    </>
  );
}

function Figure(props: {
  readonly name: string;
  readonly note: string;
  readonly children: string;
}) {
  return (
    <div>
      <dt>
        {props.name} <span class="soft-words">{props.note}</span>
      </dt>
      <dd>{props.children}</dd>
    </div>
  );
}

/** Shows the errors along the rail, one kind at a time, because kinds may be on different rails. */
function Plots(props: {
  readonly plots: readonly DrillPlot[];
  readonly children: ComponentChildren;
}) {
  const { plots } = props;
  const [chosen, choose] = useState(plots[0]?.kind);
  const plot = plots.find(({ kind }) => kind === chosen) ?? plots[0];
  if (!plot) return null;
  const { kind, ...drawn } = plot;
  return (
    <section class="sheet drill-plot" aria-labelledby="over-the-rail">
      <h2 id="over-the-rail">Errors over the rail</h2>
      {plots.length > 1 && (
        <fieldset class="chips" aria-label="Kind of question">
          {plots.map((one) => (
            <label key={one.kind} class="chip">
              <input
                type="radio"
                name="plot-kind"
                checked={one.kind === kind}
                onChange={() => choose(one.kind)}
              />
              <span>{KIND_NAMES[one.kind]}</span>
            </label>
          ))}
        </fieldset>
      )}
      <ErrorPlot {...drawn} />
      <p class="soft-words">
        The band is the tolerance; a cross was off. An arrow was further off than the picture goes.
      </p>
      {props.children}
    </section>
  );
}

function ByKind({ questions }: { readonly questions: readonly Drilled[] }) {
  const kinds = KINDS.filter((kind) => questions.some((one) => one.kind === kind));
  if (kinds.length < 2) return null;
  return (
    <section class="sheet" aria-labelledby="by-kind">
      <h2 id="by-kind">By kind</h2>
      <table class="drill-table">
        <thead>
          <tr>
            <th scope="col">Kind</th>
            <th scope="col">Within</th>
            <th scope="col">Bias</th>
            <th scope="col">Time</th>
          </tr>
        </thead>
        <tbody>
          {kinds.map((kind) => {
            const own = questions.filter((one) => one.kind === kind);
            const { within, asked, medianMs } = figuresOf(own);
            const lean = leanOf(errorsOfKind(questions, kind));
            return (
              <tr key={kind}>
                <th scope="row">{KIND_NAMES[kind]}</th>
                <td>{`${within} of ${asked}`}</td>
                <td>{lean ? biasWords(lean) : '–'}</td>
                <td>{medianMs === null ? '–' : timeWords(medianMs)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}

import './plots.css';

/** Lists a plot's numbers, for players who cannot see the plot or want more detail. */
export function PlotTable(props: {
  /** The label that opens the table, such as "The forecast in numbers". */
  readonly summary: string;
  readonly heads: readonly string[];
  /** The first cell of a row is its heading. */
  readonly rows: readonly (readonly (string | number)[])[];
}) {
  return (
    <details class="plot-numbers">
      <summary>{props.summary}</summary>
      <table>
        <thead>
          <tr>
            {props.heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {props.rows.map(([first, ...cells]) => (
            <tr key={first}>
              <th scope="row">{first}</th>
              {cells.map((cell, n) => (
                <td key={props.heads[n + 1]}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}

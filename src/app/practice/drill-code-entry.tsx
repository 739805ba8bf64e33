import { useState } from 'preact/hooks';
import { parseDrill } from '../../quiz/index.ts';

/** Opens another player's drill by its code or link. */
export function CodeEntry({ start }: { readonly start: (code: string) => void }) {
  const [text, setText] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const open = (event: Event): void => {
    event.preventDefault();
    // A link may lead to the drill itself, or to somebody's result of the drill.
    const code = text.trim().toLowerCase().replace(/^.*\//, '').replace(/\..*$/, '');
    const parsed = parseDrill(code);
    if (parsed.ok) start(code);
    else setProblem(parsed.say);
  };
  return (
    <form class="sheet drill-code" onSubmit={open}>
      <CodeField text={text} type={setText} />
      <button type="submit" class="key quiet">
        Open
      </button>
      {problem && (
        <p class="problem" role="alert">
          {problem}
        </p>
      )}
    </form>
  );
}

function CodeField(props: { readonly text: string; readonly type: (text: string) => void }) {
  return (
    <label class="field">
      <span class="choice-label">Another player’s drill</span>
      <input
        type="text"
        value={props.text}
        autoComplete="off"
        autoCapitalize="off"
        spellcheck={false}
        placeholder="its code or link"
        onInput={(event) => props.type(event.currentTarget.value)}
      />
    </label>
  );
}

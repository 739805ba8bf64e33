/** The result of reading outside data: a value, or one sentence that says what is wrong. */
export type Read<T> = { readonly ok: true; readonly value: T } | Refused;
export type Refused = { readonly ok: false; readonly say: string };

export function read<T>(value: T): Read<T> {
  return { ok: true, value };
}

export function refuse(say: string): Refused {
  return { ok: false, say };
}

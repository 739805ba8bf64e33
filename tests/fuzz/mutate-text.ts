/** Mutations of text and of bytes. */

import type { Dice } from '../../src/cards/index.ts';
import { JSON_TEXTS, KEYS, nestedText, TEXTS } from './hostile.ts';

/** Longest text, characters: refusals for length alone have their own tests. */
export const LONGEST = 60_000;

type Change = (text: string, dice: Dice, other: string) => string;

const at = (length: number, dice: Dice) => Math.floor(dice.next() * (length + 1));

function span(text: string, dice: Dice, most: number): readonly [number, number] {
  const from = at(text.length, dice);
  return [from, Math.min(text.length, from + 1 + Math.floor(dice.next() * most))];
}

const flipBit: Change = (text, dice) => {
  const n = at(text.length - 1, dice);
  const unit = text.charCodeAt(n) ^ (1 << Math.floor(dice.next() * (dice.next() < 0.9 ? 7 : 16)));
  return text.slice(0, n) + String.fromCharCode(unit) + text.slice(n + 1);
};

const insert: Change = (text, dice) => {
  const n = at(text.length, dice);
  return text.slice(0, n) + dice.pick(TEXTS) + text.slice(n);
};

const replace: Change = (text, dice) => {
  const [from, to] = span(text, dice, 12);
  return text.slice(0, from) + dice.pick(TEXTS) + text.slice(to);
};

const cutOut: Change = (text, dice) => {
  const [from, to] = span(text, dice, dice.next() < 0.5 ? 3 : text.length);
  return text.slice(0, from) + text.slice(to);
};

const truncate: Change = (text, dice) => text.slice(0, at(text.length, dice));

const repeat: Change = (text, dice) => {
  const [from, to] = span(text, dice, 80);
  const times = dice.pick([2, 3, 10, 200]);
  return text.slice(0, to) + text.slice(from, to).repeat(times) + text.slice(to);
};

const swap: Change = (text, dice) => {
  const [from, to] = span(text, dice, 40);
  const [low, high] = span(text, dice, 40);
  if (to > low) return text;
  const [one, two] = [text.slice(from, to), text.slice(low, high)];
  return text.slice(0, from) + two + text.slice(to, low) + one + text.slice(high);
};

const splice: Change = (text, dice, other) =>
  text.slice(0, at(text.length, dice)) + other.slice(at(other.length, dice));

const anyUnit: Change = (text, dice) => {
  const n = at(text.length, dice);
  return text.slice(0, n) + String.fromCharCode(Math.floor(dice.next() * 0x10000)) + text.slice(n);
};

const PLAIN = [flipBit, flipBit, insert, replace, cutOut, truncate, repeat, swap, splice, anyUnit];

/** A JSON value, as far as a regular expression can find one. */
const VALUE = /"(?:[^"\\]|\\.)*"(?!\s*:)|-?\d[\d.eE+-]*|true|false|null|\[\]|\{\}/g;
const NAME = /"((?:[^"\\]|\\.)*)"\s*:/g;

function found(text: string, pattern: RegExp, dice: Dice): RegExpMatchArray | null {
  pattern.lastIndex = at(text.length, dice);
  return pattern.exec(text);
}

const hostileValue: Change = (text, dice) => {
  const match = found(text, VALUE, dice);
  if (match?.index === undefined) return text;
  const deep = () => nestedText(dice.pick([50, 5_000, 20_000]), dice.next() < 0.5);
  const value = dice.next() < 0.02 ? deep() : dice.pick(JSON_TEXTS);
  return text.slice(0, match.index) + value + text.slice(match.index + match[0].length);
};

const twice: Change = (text, dice) => {
  const match = found(text, NAME, dice);
  if (match?.index === undefined) return text;
  const key = dice.next() < 0.5 ? match[1] : dice.pick(KEYS);
  const member = `${JSON.stringify(key)}:${dice.pick(JSON_TEXTS)},`;
  return text.slice(0, match.index) + member + text.slice(match.index);
};

const otherName: Change = (text, dice) => {
  const match = found(text, NAME, dice);
  if (match?.index === undefined) return text;
  const name = `${JSON.stringify(dice.pick(KEYS))}:`;
  return text.slice(0, match.index) + name + text.slice(match.index + match[0].length);
};

const JSONS = [...PLAIN, hostileValue, hostileValue, hostileValue, twice, twice, otherName];

export function mutatedText(text: string, other: string, isJson: boolean, dice: Dice): string {
  let now = text;
  for (let n = dice.pick([1, 1, 1, 2, 3, 6]); n > 0; n--) {
    now = dice.pick(isJson ? JSONS : PLAIN)(now, dice, other);
  }
  return now.slice(0, LONGEST);
}

/** Mutates bytes as Latin-1 text. */
export function mutatedBytes(bytes: Uint8Array, other: Uint8Array, dice: Dice): Uint8Array {
  const text = (of: Uint8Array) => Buffer.from(of).toString('latin1');
  return new Uint8Array(Buffer.from(mutatedText(text(bytes), text(other), false, dice), 'latin1'));
}

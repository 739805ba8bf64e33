import type { CardMemory, LogEvent, LogState } from '../../src/scheduler/index.ts';

interface Plain
  extends Omit<LogState, 'trail' | 'onto' | 'told' | 'model' | 'memories' | 'moved' | 'events'> {
  readonly events: readonly LogEvent[];
  readonly weights: readonly number[];
  readonly memories: ReadonlyMap<string, ReturnType<typeof plainMemory<CardMemory>>>;
  readonly moved: ReadonlyMap<string, unknown>;
}

/** What a log's state says, without how it was come by: to compare states by. */
export function plain(log: LogState): Plain {
  const { trail: _, onto: __, told: ___, model, ...state } = log;
  return {
    ...state,
    events: [...log.events],
    weights: model.weights,
    memories: new Map([...log.memories].map(([card, memory]) => [card, plainMemory(memory)])),
    met: new Map(log.met),
    moved: new Map(
      [...log.moved].map(([card, one]) => [
        card,
        { ...one, memory: one.memory && plainMemory(one.memory) },
      ]),
    ),
  };
}

/** A memory without the answers that it keeps by reference. */
export function plainMemory<M extends Pick<CardMemory, 'told' | 'recent'>>(memory: M) {
  const { told, recent } = memory;
  return {
    ...memory,
    told: told && { answer: told.answer, errors: told.errors },
    recent: recent.map(({ day, errors }) => ({ day, errors })),
  };
}

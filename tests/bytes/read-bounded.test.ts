import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readBounded } from '../../src/bytes/index.ts';

/** A stream of these parts that records what was asked of it. */
function streamOf(parts: readonly Uint8Array[], endless = false) {
  const seen = { given: 0, canceled: false };
  const stream = new ReadableStream<Uint8Array>(
    {
      pull: (controller) => {
        const part = parts[endless ? seen.given % parts.length : seen.given];
        if (!part) return controller.close();
        seen.given += 1;
        controller.enqueue(part);
      },
      cancel: () => {
        seen.canceled = true;
      },
    },
    { highWaterMark: 0 },
  );
  return { stream, seen };
}

describe('bounded reading', () => {
  it('gives the whole stream if it is within the bound, and nothing if it is not', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.uint8Array({ maxLength: 20 }), { maxLength: 8 }),
        fc.nat(120),
        async (parts, most) => {
          const whole = Buffer.concat(parts);
          const { stream, seen } = streamOf(parts);
          const read = await readBounded(stream, most);
          if (whole.length <= most) expect(Buffer.from(read ?? []).equals(whole)).toBe(true);
          else expect(read).toBeNull();
          expect(seen.canceled).toBe(whole.length > most);
        },
      ),
    );
  });

  it('takes exactly the bound, and not a byte more', async () => {
    const parts = [new Uint8Array(6), new Uint8Array(4)];
    expect(await readBounded(streamOf(parts).stream, 10)).toHaveLength(10);
    expect(await readBounded(streamOf(parts).stream, 9)).toBeNull();
  });

  it('stops a stream without end at the first part beyond the bound', async () => {
    const { stream, seen } = streamOf([new Uint8Array(100)], true);
    expect(await readBounded(stream, 1000)).toBeNull();
    expect(seen).toEqual({ given: 11, canceled: true });
  });

  it('reads a response without a body as empty', async () => {
    expect(await readBounded(new Response(null).body, 0)).toEqual(new Uint8Array());
  });

  it('rejects as the stream does', async () => {
    const broken = new ReadableStream<Uint8Array>({
      start: (controller) => controller.error(new TypeError('the line was cut')),
    });
    await expect(readBounded(broken, 10)).rejects.toThrow('the line was cut');
  });
});

type Operation = (...values: never[]) => unknown;

type Convert = (error: unknown) => unknown;

/**
 * Makes every operation throw store faults: synchronously, in its promise or while its items are read.
 *
 * @param asFault converts an engine's own error; any other error is returned unchanged
 */
export function withStoreFaults<Operations extends object>(
  operations: Operations,
  asFault: Convert,
): Operations {
  const guarded = Object.entries(operations).map(([name, each]) => [
    name,
    typeof each === 'function'
      ? withStoreFault(each as Operation, asFault)
      : withStoreFaults(each as object, asFault),
  ]);
  return Object.fromEntries(guarded) as Operations;
}

function withStoreFault(operation: Operation, asFault: Convert): Operation {
  const rethrow = (error: unknown): never => {
    throw asFault(error);
  };
  return (...values) => {
    try {
      const result = operation(...values);
      if (result instanceof Promise) return result.catch(rethrow);
      return isAsyncIterable(result) ? itemsOf(result, rethrow) : result;
    } catch (error) {
      return rethrow(error);
    }
  };
}

const isAsyncIterable = (value: unknown): value is AsyncIterable<unknown> =>
  typeof value === 'object' && value !== null && Symbol.asyncIterator in value;

async function* itemsOf(
  items: AsyncIterable<unknown>,
  rethrow: (error: unknown) => never,
): AsyncIterable<unknown> {
  try {
    yield* items;
  } catch (error) {
    rethrow(error);
  }
}

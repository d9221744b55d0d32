import type { Components } from './contract/engine.js';

/** An engine's factory for each component on one of its connections. */
export type Makers<Connection> = {
  [Name in keyof Components]: (connection: Connection) => Components[Name];
};

/** The components on one connection; each prepares its statements when it is first used. */
export function componentsFrom<Connection>(makers: Makers<Connection>, connection: Connection): Components {
  const components = {} as Components;
  for (const name of Object.keys(makers) as (keyof Components)[]) {
    Object.defineProperty(components, name, {
      configurable: true,
      enumerable: true,
      get() {
        const value = makers[name](connection);
        Object.defineProperty(components, name, { value, enumerable: true });
        return value;
      },
    });
  }
  return components;
}

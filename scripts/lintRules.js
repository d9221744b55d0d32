const IN_TRANSACTION = new Set(['write', 'writeFromReserve', 'changeHistory', 'consistently']);

/**
 * Inside a transaction or a snapshot, code must read through the argument of its callback and must not open another
 * one.
 */
const readByArgument = {
  create(context) {
    let depth = 0;
    const opens = ({ callee }) => callee.type === 'Identifier' && IN_TRANSACTION.has(callee.name);
    return {
      CallExpression(node) {
        if (!opens(node)) return;
        if (depth > 0)
          context.report({
            node,
            message: 'A transaction or snapshot opened inside another one would wait for itself.',
          });
        depth += 1;
      },
      'CallExpression:exit'(node) {
        if (opens(node)) depth -= 1;
      },
      Identifier(node) {
        if (depth > 0 && node.name === 'reading')
          context.report({
            node,
            message: 'Inside a transaction or snapshot, read through the argument of the callback.',
          });
      },
    };
  },
};

/** Rules of this project, for `oxlint.config.js`. */
export default { meta: { name: 'store' }, rules: { 'read-by-argument': readByArgument } };

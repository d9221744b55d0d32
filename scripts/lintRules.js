const IN_TRANSACTION = new Set(['write', 'writeFromReserve', 'changeHistory', 'consistently']);

/**
 * Within a transaction or a snapshot, what is read goes by way of the argument of its work, and no other one is opened.
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
            message: 'A transaction or a snapshot within another one would wait for itself.',
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
            message: 'Within a transaction or a snapshot, read by way of the argument of its work.',
          });
      },
    };
  },
};

/** Rules of this project, for `oxlint.config.js`. */
export default { meta: { name: 'store' }, rules: { 'read-by-argument': readByArgument } };

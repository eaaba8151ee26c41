/**
 * A batch of beer and what people have asked of a chamber, as immutable values that move by elapsed time. No clock is read,
 * nothing is stored and nothing is switched here. Start at {@link gylewarden.batch.Mandate}.
 */
package gylewarden.batch;

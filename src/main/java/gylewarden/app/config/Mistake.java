package gylewarden.app.config;

import java.util.OptionalInt;

/**
 * One thing that is wrong with a file.
 *
 * @param line counted from 1; empty if it is about the whole file
 * @param written what stands there, as it was written
 * @param advice what is wrong with it, and what is allowed
 */
public record Mistake(OptionalInt line, String written, String advice) {}

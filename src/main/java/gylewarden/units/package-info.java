/**
 * Value types that carry a unit, and the monotonic clock. No rule of control or brewing lives here. Start at
 * {@link gylewarden.units.Temperature}.
 */
package gylewarden.units;

/**
 * What the brewer planned and how far it has got: the steps of a schedule, the course of one along elapsed time, and the
 * rule by which elapsed time is told over restarts. Pure: no clock is read and nothing is stored here, and whether a
 * relay moves is decided in {@code gylewarden.control}. Start at {@link gylewarden.schedule.Course}.
 */
package gylewarden.schedule;

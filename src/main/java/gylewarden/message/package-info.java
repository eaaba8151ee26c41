/**
 * The channels by which letters reach people, and the postmen that carry them until they have arrived. What is written to whom is
 * decided in {@code gylewarden.post}, and kept in the record; a channel that hangs holds up no other, and touches no relay. Start at
 * {@link gylewarden.message.PostOffice}.
 */
package gylewarden.message;

/**
 * Messages to people: which of what has happened goes to whom and when, and the channels that carry it there. It decides nothing
 * about alarms, keeps nothing on the disk itself and touches no relay; a channel that hangs holds up no other. Start at
 * {@link gylewarden.message.PostRules}.
 */
package gylewarden.message;

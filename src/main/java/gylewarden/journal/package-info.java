/**
 * What is told to the outside: the status of a chamber, the events of its life, and the one formatter that puts reasons into
 * sentences. Records only; nothing here decides, stores or sends. Start at {@link gylewarden.journal.ChamberStatus}.
 */
package gylewarden.journal;

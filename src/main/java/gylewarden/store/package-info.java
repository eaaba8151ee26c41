/**
 * What is kept in the data folder: who holds it, what is latched off, how often the daemon has started, what the stop hook
 * must release. Decides nothing about a chamber and knows no relay. Start at {@link gylewarden.store.InstanceLock}.
 */
package gylewarden.store;

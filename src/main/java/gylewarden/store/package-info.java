/**
 * What is kept in the data folder: the record (batches, what people asked, minutes and events) in one database, a small file
 * per chamber that outlives a broken database, who holds the folder, what is latched off, how often the daemon has started,
 * what the stop hook must release. Decides nothing about a chamber and knows no relay. Start at {@link
 * gylewarden.store.Database}, and at {@link gylewarden.store.InstanceLock} for the folder.
 */
package gylewarden.store;

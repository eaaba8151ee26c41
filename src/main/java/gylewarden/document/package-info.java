/**
 * How schedules, batches and what a chamber is asked to do are written as JSON text, in files, in the database and in the
 * API. Each document is read and written field by field and never mapped onto types of the domain; no rule of brewing or
 * control lives here, and no file is touched. Start at {@link gylewarden.document.ScheduleDocument}.
 */
package gylewarden.document;

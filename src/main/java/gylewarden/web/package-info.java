/**
 * What crosses the edge as JSON, and later the HTTP API and the page. No rule of brewing or control lives here, and no
 * JSON is mapped onto types of the domain: each document is read and written field by field. Start at
 * {@link gylewarden.web.ScheduleDocument}.
 */
package gylewarden.web;

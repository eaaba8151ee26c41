/**
 * Holds the pages of the project to the code and to each other. Whether a page reads well, no test can tell. Start at
 * {@link gylewarden.docs.FailuresPageTest}.
 */
package gylewarden.docs;

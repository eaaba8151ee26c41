/**
 * A real browser for the tests of the page: opens it, reads it, types into it, and knows what it asked for. What the page
 * should show is not here but in the tests that use it. Start at {@link gylewarden.browser.Browser}.
 */
package gylewarden.browser;

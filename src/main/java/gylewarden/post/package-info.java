/**
 * Who hears of an alarm, when, and how often again. Pure: changes and the passing of time go in, letters come out; carrying them is
 * {@code gylewarden.message}'s, and nothing here knows of a network. Start at {@link gylewarden.post.PostRules}.
 */
package gylewarden.post;

/**
 * The one way to a message broker (MQTT 5): connects, connects again after ever longer pauses, and makes nobody wait. Says
 * of each message whether the broker has it, keeps none for later, and decides nothing about what is sent or heard. Start
 * at {@link gylewarden.link.Link}; {@link gylewarden.link.Keeper} is the part that thinks.
 */
package gylewarden.link;

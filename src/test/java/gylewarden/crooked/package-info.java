/**
 * A house built wrong on purpose: each class breaks one rule of docs/architecture.md, or is a good neighbour of one that
 * does. Nothing here is part of the program. Start at {@code gylewarden.house.CrookedHouseTest}.
 */
package gylewarden.crooked;

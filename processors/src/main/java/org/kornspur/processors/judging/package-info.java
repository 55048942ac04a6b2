/**
 * From a dossier to its outcome: every gate under the rulebook that the production names, what is
 * inherited, and what is told to children, ground and pedigree. Pure.
 */
package org.kornspur.processors.judging;

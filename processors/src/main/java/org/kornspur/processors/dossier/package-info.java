/**
 * Dossiers: the facts of one crop or lot, and what parents, the hybrid and the ground reported of
 * it. Pure.
 */
package org.kornspur.processors.dossier;

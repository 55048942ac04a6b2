/** Audits in one pack: which lots are chosen, and the packs while they are made and kept. */
package org.kornspur.api.command.audit;

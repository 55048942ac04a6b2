/** What an auditor asks of the sealed log: its checkpoints, and dossiers that prove themselves. */
package org.kornspur.api.query.proof;

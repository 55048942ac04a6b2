/** Parents and children: edges, masses that passed along them, and walks back and forward. Pure. */
package org.kornspur.processors.pedigree;

/** Parents and children: edges, and walks back and forward. Pure. */
package org.kornspur.processors.pedigree;

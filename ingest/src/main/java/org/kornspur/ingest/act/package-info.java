/** Acts of persons as facts: how they are bound to the server's key, and which may be taken in. */
package org.kornspur.ingest.act;

/** The recall drill: from a lot back to every parent and forward to every customer. Pure. */
package org.kornspur.processors.recall;

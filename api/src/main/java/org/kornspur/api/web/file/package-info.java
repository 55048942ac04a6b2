/** Tables of facts that people send, look at and record, and the templates of them. */
package org.kornspur.api.web.file;

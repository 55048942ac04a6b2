/** Problem documents (RFC 9457): everything that is not answered says why, and what to do next. */
package org.kornspur.api.problem;

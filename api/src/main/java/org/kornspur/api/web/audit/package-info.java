/** Where an audit is put together, and where a proof is verified. */
package org.kornspur.api.web.audit;

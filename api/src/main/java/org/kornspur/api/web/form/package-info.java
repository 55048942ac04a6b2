/**
 * Forms that people fill in, and how what was posted becomes a fact: of the field book and of the
 * laboratory. What fields a form has is said by those.
 */
package org.kornspur.api.web.form;

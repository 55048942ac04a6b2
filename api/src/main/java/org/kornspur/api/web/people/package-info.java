/** Pages on the people who may log in, for who keeps them. */
package org.kornspur.api.web.people;

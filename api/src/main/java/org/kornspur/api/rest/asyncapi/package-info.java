/** The document of what programs beside this one may write to and read from its topics. */
package org.kornspur.api.rest.asyncapi;

package org.kornspur.api.security.people;

import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.ext.ExceptionMapper;
import jakarta.ws.rs.ext.Provider;

/** Says that nobody can log in just now. */
@Provider
public final class PeopleUnreadableMapper implements ExceptionMapper<PeopleUnreadable> {

  @Override
  public Response toResponse(PeopleUnreadable unreadable) {
    return unreadable.refusal().answer().build();
  }
}

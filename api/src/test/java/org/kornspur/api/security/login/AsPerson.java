package org.kornspur.api.security.login;

import io.restassured.RestAssured;
import io.restassured.builder.RequestSpecBuilder;
import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.BeforeEachCallback;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.kornspur.api.security.people.TestPeople;

/** Every request of a test goes out as one person, unless it says otherwise. */
public class AsPerson implements BeforeEachCallback, AfterEachCallback {

  /** The person: quality and administrator in one. */
  public static final String EVERYTHING = "everything";

  @Override
  public void beforeEach(ExtensionContext context) {
    RestAssured.requestSpecification =
        new RequestSpecBuilder().addHeader("Authorization", TestPeople.basic(EVERYTHING)).build();
  }

  @Override
  public void afterEach(ExtensionContext context) {
    RestAssured.requestSpecification = null;
  }
}

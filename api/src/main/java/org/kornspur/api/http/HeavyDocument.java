package org.kornspur.api.http;

import jakarta.ws.rs.NameBinding;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * Of a method whose answer is large in memory while it is made, such as a dossier with its
 * ancestors: only {@link HeavyDocuments#atOnce} of these are made at a time.
 *
 * <p>Not of a whole resource class: Quarkus gives no constructor to one that bears an annotation
 * from outside of Jakarta REST.
 */
@NameBinding
@Retention(RetentionPolicy.RUNTIME)
@Target({ElementType.TYPE, ElementType.METHOD})
public @interface HeavyDocument {}

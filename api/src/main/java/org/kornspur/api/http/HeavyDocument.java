package org.kornspur.api.http;

import jakarta.ws.rs.NameBinding;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * Marks a method whose answer needs much memory while it is made, such as a dossier with its
 * ancestors: only {@link HeavyDocuments#atOnce} of these are made at a time.
 *
 * <p>Put it on methods, not on a resource class: Quarkus makes no constructor for a class with an
 * annotation from outside of Jakarta REST.
 */
@NameBinding
@Retention(RetentionPolicy.RUNTIME)
@Target({ElementType.TYPE, ElementType.METHOD})
public @interface HeavyDocument {}

package org.kornspur.api.web;

/**
 * A screen that the pages must work on, in CSS pixels.
 *
 * <p>Source of the width: WCAG 2.2, 1.4.10 asks for 320 px without scrolling sideways; 360 px is a
 * common phone (common practice, no source).
 */
enum Screen {
  NARROW(360, 740),
  WIDE(1440, 900);

  final int width;
  final int height;

  Screen(int width, int height) {
    this.width = width;
    this.height = height;
  }
}

#include "sim/base/text.h"

#include <catch2/catch.hpp>

using namespace keystead;

TEST_CASE("Well-formed UTF-8 is told from the rest as the Unicode standard does", "[base][text]") {
    // The Unicode Standard 15, table 3-7, and its examples of ill-formed sequences (D92, U+FFFD
    // substitution): from memory.
    for (const char* good :
         {"", "plain", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
          "\xEF\xBF\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"})
        CHECK(is_utf8(good));
    for (const char* bad : {"\x80", "\xC0\xAF", "\xC1\xBF", "\xC2", "\xC2\x41", "\xE0\x9F\xBF",
                            "\xE2\x82", "\xED\xA0\x80", "\xED\xBF\xBF", "\xF0\x8F\xBF\xBF",
                            "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFF", "a\xF0\x9F\x91"})
        CHECK_FALSE(is_utf8(bad));
}

TEST_CASE("A text becomes one line, cut between characters", "[base][text]") {
    CHECK(one_line("a\nb\x7F"
                   "c\xC2\x85"
                   "d\xE2\x80\xA8"
                   "e\xFF",
                   60) == "a?b?c?d?e?");
    CHECK(one_line("\xC3\xBC\xC3\xBC\xC3\xBC", 3) == "\xC3\xBC\xC3\xBC...");
    CHECK(one_line("", 10).empty());
    CHECK(character_count("a\xC3\xBC\xE6\x97\xA5\xF0\x9F\x8E\xA8") == 4);
}

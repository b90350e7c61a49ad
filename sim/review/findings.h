// Findings by subject: supports, light and picture, room and safety of people below.
#pragma once

#include "sim/review/bench.h"
#include "sim/review/review.h"

#include <string>
#include <vector>

namespace keystead {

using Findings = std::vector<Finding>;

void find_about_supports(const Bench& bench, const Review& review, Findings& findings);
void find_about_people(const Bench& bench, Findings& findings);
void find_about_light(const Bench& bench, const Review& review, Findings& findings);
void find_about_eyes(const Bench& bench, const Review& review, Findings& findings);
void find_about_glasses(const Bench& bench, const Review& review, Findings& findings);
void find_about_tones(const Bench& bench, const Review& review, Findings& findings);
void find_about_strays(const Bench& bench, const Review& review, Findings& findings);
void find_about_meter(const Bench& bench, const Review& review, Findings& findings);
void find_about_picture(const Bench& bench, const Review& review, Findings& findings);
void find_about_room(const Review& review, Findings& findings);
void find_unused(const Set& set, Findings& findings);

/// "leg 2, 0.30 m from the column", "the column", "the tail".
std::string where_to_hang(const Ballast& bag);
/// Hair and ears, not clothing.
bool of_head(const std::string& place);
/// "the top of the head", "the left shoulder".
std::string place_words(const std::string& place);
/// What hangs behind the subject: "the paper", "the cloth", "the wall".
const char* background_word(const Set& set);

} // namespace keystead

// What a field list says about one field: the range of a number, the length of a text or list, the
// words a text may be, and one line about its meaning.
#pragma once

#include "sim/set/set.h"

#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace keystead {

struct Rule {
    double min = -std::numeric_limits<double>::infinity();
    double max = std::numeric_limits<double>::infinity();
    std::size_t count = std::numeric_limits<std::size_t>::max(); ///< of characters or entries
    std::span<const char* const> words = {};                     ///< empty: any text

    bool bounded() const { return min > -1e300 || max < 1e300; }
};

/// Numbers from `min` to `max`, both included. Components of a point each obey it.
constexpr Rule between(double min, double max) {
    return {.min = min, .max = max};
}
/// At most so many characters of a text or entries of a list.
constexpr Rule at_most(std::size_t count) {
    return {.count = count};
}
constexpr Rule one_of(std::span<const char* const> words) {
    return {.words = words};
}

/// The words of an enumeration in the document, in the order of its values.
template <class E>
struct EnumWords;

template <>
struct EnumWords<BackgroundKind> {
    static constexpr std::array<const char*, 3> words{"none", "paper", "cloth"};
};
template <>
struct EnumWords<Posture> {
    static constexpr std::array<const char*, 2> words{"standing", "seated"};
};
template <>
struct EnumWords<HairStyle> {
    static constexpr std::array<const char*, 6> words{"none", "cropped", "bob",
                                                      "tied", "long",    "curly"};
};
template <>
struct EnumWords<ArmPose> {
    static constexpr std::array<const char*, 5> words{"hanging", "left_on_hip", "right_on_hip",
                                                      "both_on_hips", "crossed"};
};
template <>
struct EnumWords<ClothFinish> {
    static constexpr std::array<const char*, 2> words{"matte", "satin"};
};
template <>
struct EnumWords<GazeKind> {
    static constexpr std::array<const char*, 3> words{"ahead", "camera", "angles"};
};
template <>
struct EnumWords<LengthUnit> {
    static constexpr std::array<const char*, 5> words{"mm", "cm", "m", "in", "ft"};
};
template <>
struct EnumWords<UpAxis> {
    static constexpr std::array<const char*, 3> words{"x", "y", "z"};
};
template <>
struct EnumWords<PersonPart> {
    static constexpr std::array<const char*, 3> words{"head", "bust", "figure"};
};
template <>
struct EnumWords<Orientation> {
    static constexpr std::array<const char*, 2> words{"landscape", "upright"};
};
template <>
struct EnumWords<HeadKind> {
    static constexpr std::array<const char*, 2> words{"flash", "continuous"};
};
template <>
struct EnumWords<ModifierShape> {
    static constexpr std::array<const char*, 7> words{"bare",    "disc",     "ring",  "rectangle",
                                                      "octagon", "umbrella", "sphere"};
};
template <>
struct EnumWords<UmbrellaKind> {
    static constexpr std::array<const char*, 2> words{"reflective", "shoot_through"};
};
template <>
struct EnumWords<GridReading> {
    static constexpr std::array<const char*, 3> words{"cells", "full_cutoff", "half_intensity"};
};
template <>
struct EnumWords<ReceptorKind> {
    static constexpr std::array<const char*, 2> words{"flat", "dome"};
};
template <>
struct EnumWords<PanelFinish> {
    static constexpr std::array<const char*, 2> words{"matte", "silver"};
};
template <>
struct EnumWords<GridCell> {
    static constexpr std::array<const char*, 2> words{"round", "square"};
};
template <>
struct EnumWords<SupportKind> {
    static constexpr std::array<const char*, 5> words{"low", "standard", "century", "roller",
                                                      "boom"};
};
template <>
struct EnumWords<BagPlace> {
    static constexpr std::array<const char*, 3> words{"leg", "column", "tail"};
};
template <>
struct EnumWords<AimKind> {
    static constexpr std::array<const char*, 3> words{"landmark", "point", "angles"};
};
template <>
struct EnumWords<PanelKind> {
    static constexpr std::array<const char*, 5> words{"reflector", "flag", "v_flat", "scrim",
                                                      "cutter"};
};

template <class E>
const char* word_of(E value) {
    return EnumWords<E>::words[static_cast<std::size_t>(value)];
}

/// What a word stands for; nothing where it is none of the kind's.
template <class E>
std::optional<E> value_of(std::string_view word) {
    const auto& words = EnumWords<E>::words;
    for (std::size_t i = 0; i < words.size(); ++i)
        if (word == words[i]) return static_cast<E>(i);
    return std::nullopt;
}

inline constexpr std::array<const char*, 7> landmark_words{
    "face", "nose", "chin", "hair_top", "chest", "left_cheek", "right_cheek"};
inline constexpr std::array<const char*, 6> preset_words{
    "mean-male", "mean-female", "small-male", "small-female", "large-male", "large-female"};

/// The unit a field's name ends in, as printed: "m", "kg", "°"; empty when it has none.
std::string_view unit_of(std::string_view field_name);

} // namespace keystead

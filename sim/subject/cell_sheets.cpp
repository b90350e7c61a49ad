#include "sim/subject/cell_sheets.h"

#include <algorithm>
#include <bit>
#include <vector>

namespace keystead::sculpt {

namespace {

// Sheets run from edge to edge over the cell's faces. On a face with four crossings they keep its
// two inner corners apart, which both cells beside it see alike.
Sheets trace_sheets(unsigned inside) {
    Sheets sheets;
    sheets.of_edge.fill(uncrossed);
    const auto is_in = [inside](unsigned corner) { return (inside >> corner & 1U) != 0; };
    std::array<std::uint8_t, 24> label{};
    for (std::uint8_t edge = 0; edge < 24; ++edge) label[edge] = edge;
    const auto unite = [&label](unsigned a, unsigned b) {
        const std::uint8_t from = label[a], into = label[b];
        std::replace(label.begin(), label.end(), from, into);
    };
    const auto crossed = [&](unsigned axis, unsigned low) {
        return (low >> axis & 1U) == 0 && is_in(low) != is_in(low | 1U << axis);
    };
    for (unsigned across = 0; across < 3; ++across)
        for (unsigned side = 0; side < 2; ++side) {
            const unsigned u = 1U << (across + 1) % 3, v = 1U << (across + 2) % 3;
            const unsigned base = side << across;
            const std::array<unsigned, 4> ring{base, base | u, base | u | v, base | v};
            std::array<unsigned, 4> edge{};
            std::vector<unsigned> met;
            for (unsigned e = 0; e < 4; ++e) {
                const unsigned a = ring[e], b = ring[(e + 1) % 4], bit = a ^ b;
                edge[e] = static_cast<unsigned>(std::countr_zero(bit)) * 8 + std::min(a, b);
                if (is_in(a) != is_in(b)) met.push_back(edge[e]);
            }
            if (met.size() == 2) unite(met[0], met[1]);
            if (met.size() == 4)
                for (unsigned e = 0; e < 4; ++e)
                    if (is_in(ring[e])) unite(edge[e], edge[(e + 3) % 4]);
        }
    std::array<std::uint8_t, 24> number{};
    number.fill(uncrossed);
    for (unsigned edge = 0; edge < 24; ++edge) {
        if (!crossed(edge / 8, edge % 8)) continue;
        std::uint8_t& sheet = number[label[edge]];
        if (sheet == uncrossed) sheet = sheets.count++;
        sheets.of_edge[edge] = sheet;
    }
    return sheets;
}

} // namespace

const Sheets& sheets_of(unsigned inside) {
    static const std::vector<Sheets> table = [] {
        std::vector<Sheets> all;
        for (unsigned mask = 0; mask < 256; ++mask) all.push_back(trace_sheets(mask));
        return all;
    }();
    return table[inside];
}

} // namespace keystead::sculpt

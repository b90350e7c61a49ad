#include "sim/photometry/photometric_file.h"
#include "sim/photometry/polar_plot.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/exit_codes.h"

#include <cstdio>
#include <fstream>

namespace keystead {

namespace {

const char* type_word(Goniometer type) {
    return type == Goniometer::type_c ? "C" : type == Goniometer::type_b ? "B" : "A";
}

void print(const Distribution& d) {
    std::printf("%s, type %s%s%s\n", d.format.c_str(), type_word(d.type),
                d.name.empty() ? "" : ": ", d.name.c_str());
    std::printf("%zu vertical angles from %g to %g degrees, %zu planes\n", d.vertical_deg.size(),
                d.vertical_deg.front(), d.vertical_deg.back(), d.horizontal_deg.size());
    std::printf("peak %.0f cd, flux by integration %.0f lm", peak_candela(d), lumens_of(d));
    if (d.stated_lumens) std::printf(", the file's lamps %.0f lm", *d.stated_lumens);
    std::printf("\n");
    if (d.type == Goniometer::type_c)
        std::printf("beam angle (half the peak) %.0f degrees along, %.0f across\n",
                    beam_angle_deg(d, 0.0, 0.5), beam_angle_deg(d, 90.0, 0.5));
    std::printf("opening %.3f x %.3f m%s, %.0f W\n", d.width_m, d.length_m,
                d.round ? ", round" : "", d.watts);
    for (const std::string& note : d.notes) std::printf("Note: %s\n", note.c_str());
}

} // namespace

int photometric_command(const PhotometricArguments& arguments) {
    const auto read = read_photometric_file(arguments.file);
    if (!read) {
        std::fprintf(stderr, "keystead: %s\n", read.problem().message().c_str());
        return exit_code::input;
    }
    print(read.value());
    if (arguments.polar.empty()) return exit_code::done;
    std::ofstream stream(arguments.polar, std::ios::binary);
    stream << polar_plot_svg(read.value());
    stream.close();
    if (!stream) {
        std::fprintf(stderr, "keystead: %s: cannot be written\n", arguments.polar.c_str());
        return exit_code::input;
    }
    return exit_code::done;
}

} // namespace keystead

#include "engine/plate/plate.h"
#include "engine/render/png.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"

#include <cstdio>

namespace keystead {

int plate_command(const PlateArguments& arguments) {
    PlateOptions options;
    if (!arguments.size.empty()) {
        const Result<PixelSize> cell = parse_size(arguments.size);
        if (!cell) {
            complain(cell.problem().message());
            return exit_code::input;
        }
        options.cell_width_px = cell.value().width;
        options.cell_height_px = cell.value().height;
    }
    if (arguments.samples > 0) options.samples = arguments.samples;
    options.progress = show_progress;
    const PlateKind kind = arguments.kind == "patterns"       ? PlateKind::patterns
                           : arguments.kind == "ten-patterns" ? PlateKind::ten_patterns
                           : arguments.kind == "modifiers"    ? PlateKind::modifiers
                                                              : PlateKind::heads;
    const Result<RgbaImage> drawn = draw_plate(make_plate(kind, arguments.hard), options);
    if (!drawn) {
        complain(drawn.problem().message());
        return exit_code::machine;
    }
    if (const Outcome failed = write_png(drawn.value(), arguments.out)) {
        complain(failed->message());
        return exit_code::input;
    }
    std::printf("%s: %d x %d\n", arguments.out.c_str(), drawn.value().width, drawn.value().height);
    return exit_code::done;
}

} // namespace keystead

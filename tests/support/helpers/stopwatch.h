// Processor time, for benches.
#pragma once

#include <algorithm>
#include <ctime>

namespace keystead {

/// Of all threads of this process.
inline double cpu_ms() {
    timespec time{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return 1e3 * static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_nsec);
}

/// Least of some runs; `before` each of them is not counted.
template <class Work, class Before>
double least_cpu_ms(int runs, Work&& work, Before&& before) {
    double least = 1e30;
    for (int i = 0; i < runs; ++i) {
        before();
        const double start = cpu_ms();
        work();
        least = std::min(least, cpu_ms() - start);
    }
    return least;
}
template <class Work>
double least_cpu_ms(int runs, Work&& work) {
    return least_cpu_ms(runs, work, [] {});
}

} // namespace keystead

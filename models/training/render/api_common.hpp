// What both builds of the C interface share: the batch handle, settings and errors.
#pragma once
#include <future>
#include <string>

#include "api.h"
#include "batch.hpp"

struct hp_batch {
  std::future<hp::Packed> made;
  int n;
};

namespace hp {

struct Settings {
  int samples = 4, threads = 0;
  float marked = 0;
};
Settings& settings();
void set_error(const std::string& text);

}  // namespace hp

#include "../builder.hpp"
namespace hp { void table(Builder&); void cabinet(Builder& b) { table(b); } }

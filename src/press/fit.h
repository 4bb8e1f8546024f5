#pragma once
#include <array>
#include <optional>
#include <vector>

#include "geometry/geometry.h"

namespace quoin::press {

/// A place as it was meant, and where it was found.
struct Pair {
  Point meant, found;
};

/// The map that takes what was meant nearest to what was found, in the sense of least squares, and
/// how far it can be trusted.
struct AffineFit {
  Affine map;
  std::vector<bool> kept;  ///< one for each pair: false for those rejected as outliers
  int used = 0;            ///< pairs that were kept
  Mm rms;                  ///< of the kept pairs' distances from the map
  Mm deviation;            ///< standard error of one coordinate of one place: sqrt(SS / (2n - 6))
  /// Inverse of the normal matrix of (1, x, y) about `centre`, row after row, x and y in mm.
  std::array<double, 9> spread{};
  Point centre;  ///< of the kept places as meant

  /// The standard error of one coordinate of the mapped place: deviation · sqrt(u' (A'A)^-1 u).
  [[nodiscard]] Mm error_at(Point meant) const;
};

/// How outliers are told: those farther off than three times the median distance (made comparable
/// to a standard deviation by 1.4826) and than `floor` are left out and the rest fitted again.
struct Rejection {
  Mm floor{0.05};
};

/// Fits x' = a·x + c·y + e, y' = b·x + d·y + f. Nothing with fewer than three pairs, or when they
/// lie on one line. With exactly three the fit is exact and says nothing of its errors: deviation
/// 0.
[[nodiscard]] std::optional<AffineFit> fit_affine(const std::vector<Pair>& pairs,
                                                  Rejection rejection = {});

/// Which similarity is asked for: size kept, or one scale for both ways.
enum class Scaling { none, free };

/// The turn, scale and move that take what was meant nearest to what was found, never a mirror
/// image.
///
/// S. Umeyama, "Least-squares estimation of transformation parameters between two point patterns",
/// IEEE Trans. Pattern Analysis and Machine Intelligence 13(4), 1991, eqs. (40) to (43); in the
/// plane the turn is atan2 of the sums of cross and dot products, which is the same for det R = 1.
/// Nothing with fewer than two different places.
struct Similarity {
  Affine map;
  Angle turn;
  double scale = 1;
  double mean_square = 0;  ///< mm²: mean of the squared distances that are left
};
[[nodiscard]] std::optional<Similarity> fit_similarity(const std::vector<Pair>& pairs,
                                                       Scaling scaling);

/// What an affine map does to a sheet, in words a person can check: about `centre`.
struct Parts {
  Vec shift;   ///< of the centre
  Angle turn;  ///< of the x axis, clockwise
  double scale_x = 1, scale_y = 1;
  Angle skew;  ///< how far the angle between the axes is off a right one
  bool operator==(const Parts&) const = default;
};
[[nodiscard]] Parts parts_of(const Affine& map, Point centre);
/// The map that has these parts about `centre`: parts_of the other way round.
[[nodiscard]] Affine map_of(const Parts& parts, Point centre);

/// What is known of the deviation of one coordinate of one place before anything is measured, and
/// how many degrees of freedom that knowledge counts for.
struct Known {
  Mm deviation;
  double worth = 0;
};

/// The bound that the map's error keeps to at all of the corners together with 95 in 100.
///
/// With s² the squares of the residuals and of what is known, pooled over their m degrees of
/// freedom (2n - 6 of the residuals), and h = u'(A'A)^-1 u of a corner, |error|²/(2·s²·h) follows
/// F(2, m) (e.g. Rencher, "Methods of Multivariate Analysis", ch. 5; from memory). Its point of
/// chance q is m/2·(q^(-2/m) - 1), exact, since F(2, m) has a closed form. For k corners q = 0.05/k
/// (Bonferroni), which errs to the safe side. Nothing when m is 0: three pairs and nothing known.
[[nodiscard]] std::optional<Mm> bound(const AffineFit& fit, const std::vector<Point>& corners,
                                      Known known);

/// The distance from its mean that a normal place of deviation 1 in both coordinates keeps to with
/// chance 1 - q: sqrt(-2 ln q) (Rayleigh's distribution); for four places together q = 0.05/4.
inline constexpr double four_place_quantile = 2.9604;

}  // namespace quoin::press

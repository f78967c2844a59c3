#pragma once

#include <cstdint>
#include <string_view>

namespace stillroom::quantity {

struct CurrencyRow {
    std::string_view codes; // three letters each, a space between
    std::uint8_t exponent;
};

// ISO 4217 list one, currencies in use in 2026, by the decimals of their minor unit. Left out: metals,
// bond-market units, test codes and the other codes without a minor unit; currencies that were withdrawn
// (the lev, the kuna and the Antillean guilder among the last). Recalled; the set of codes was compared
// with the code list of Debian's iso-codes package, which carries no exponents.
inline constexpr CurrencyRow kCurrencyTable[] = {
    {"BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF", 0},
    {"AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE "
     "CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD "
     "HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK "
     "MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD "
     "RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH "
     "USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG",
     2},
    {"BHD IQD JOD KWD LYD OMR TND", 3},
    {"CLF UYW", 4},
};

} // namespace stillroom::quantity

import { createContext, useContext } from 'react';
import type { Services } from './types';

const ServicesContext = createContext<Services | null>(null);

export const ServicesProvider = ServicesContext.Provider;

/** The services handed to the app. Throws outside of a provider, which is a programming mistake. */
export function useServices(): Services {
  const services = useContext(ServicesContext);
  if (!services) throw new Error('no services provided');
  return services;
}
